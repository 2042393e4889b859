"""Has the timetable planned and mended by the real commands, and holds it to the demo's own count."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Final, NamedTuple

from demo import timetable
from demo.desk import Desk
from demo.ledger import Ledger
from demo.planning import write_planning
from demo.truth import Truth, take, take_again
from demo.world import Listed

_SECONDS: Final = 60


class Rain(NamedTuple):
    """What a lost night changed: for each team, in the words of the command."""

    by_team: dict[str, list[str]]
    games: int = 0
    nights: tuple[date, ...] = ()
    says: str = ""


@dataclass(frozen=True, slots=True)
class Planner:
    """The timetable of a season and its comparisons."""

    truth: Truth
    folder: Path
    desk: Desk
    ledger: Ledger

    @property
    def path(self) -> Path:
        """Return where the timetable is."""
        return self.folder / timetable.FILE

    def plan(self) -> str:
        """Plan the timetable, hold it to what was asked, and let the truth take its games."""
        truth = self.truth
        write_planning(self.folder, truth.size, truth.pools)
        told = self._told("plan", "--now", f"{truth.size.first_day}T12:00")
        games = timetable.read_timetable(self.path, truth.pools)
        self._hold("planned", games, told)
        take(truth, games)
        return f"{len(games)} games planned at a cost of {told['total']}; {_proof(told)}"

    def lose(self, night: date) -> Rain:
        """Mend the timetable after a night was lost, and compare that only its games moved."""
        truth = self.truth
        words = ("--lost-night", night, "--now", f"{night}T15:00")
        by_team = _by_team(self.desk.run("repair", *self._words(*words), "--dry-run").out)
        told = self._told("repair", *words)
        before = [*truth.league, *truth.play_offs]
        games = timetable.read_timetable(self.path, truth.pools)
        self._hold("mended", games, told, lost=night)
        self._compare_moved(before, games, told, by_team)
        take_again(truth, games)
        count = len(told["moved"])
        nights = sorted({date.fromisoformat(one["now"]["date"]) for one in told["moved"]})
        return Rain(
            by_team,
            count,
            tuple(nights),
            f"{count} games of {len(games)} moved, as few as could be",
        )

    def _hold(
        self, word: str, games: Sequence[Listed], told: Any, *, lost: date | None = None
    ) -> None:
        """Compare what the timetable must keep, what it costs, and that no better one exists."""
        size, pools = self.truth.size, self.truth.pools
        for what, expected, came in timetable.facts(games, pools, size, lost):
            self._compare(f"{what}, {word}", expected=expected, came=came)
        total = timetable.cost(games, pools, size)
        self._compare(f"cost as {word}", expected=total, came=told["total"])
        if lost is None:
            what = f"no better plan exists, {word}"
            self._compare(what, expected="optimal", came=told["proof"])
        listed = {
            one.game: (f"{one.day}", f"{one.start:%H:%M}", one.field, *one.sides())
            for one in games
        }
        came = {
            one["game"]: tuple(one[key] for key in ("date", "start", "field", "home", "away"))
            for one in told["games"]
        }
        what = f"games of the file and of the answer, {word}"
        self._compare(what, expected=listed, came=came)

    def _compare_moved(
        self,
        before: Sequence[Listed],
        after: Sequence[Listed],
        told: Any,
        by_team: dict[str, list[str]],
    ) -> None:
        """Compare that the games of the lost night moved and no other, and who is told."""
        lost = self.truth.size.rained_off
        had_to = sorted(one.game for one in before if one.day == lost)
        moved = timetable.moved(before, after)
        self._compare("games moved by the rain", expected=had_to, came=sorted(moved))
        self._compare("moved as few as could be", expected=True, came=told["is_least"])
        came = {one["game"]: (_place(one["was"]), _place(one["now"])) for one in told["moved"]}
        expected = {game: (_said(was), _said(now)) for game, (was, now) in moved.items()}
        self._compare("where the rain moved games", expected=expected, came=came)
        teams = sorted(
            {team for one in before if one.game in moved for team in (one.home, one.away)}
        )
        self._compare("who is told of the rain", expected=teams, came=sorted(by_team))

    def _compare(self, what: str, *, expected: object, came: object) -> None:
        self.ledger.compare("timetable", what, expected=expected, came=came)

    def _words(self, *words: object) -> tuple[object, ...]:
        return self.folder, *words, "--reproducible", "--seconds", _SECONDS

    def _told(self, command: str, *words: object) -> Any:
        return self.desk.run(command, *self._words(*words), "--json").json()


def _proof(told: dict[str, Any]) -> str:
    if told["proof"] == "optimal":
        return "no better plan exists"
    return f"at most {told['room']:.0%} of it could be saved"


def _place(told: dict[str, str]) -> tuple[str, ...]:
    return told["date"], told["start"], told["field"]


def _said(place: timetable.Place) -> tuple[str, ...]:
    day, start, field = place
    return f"{day}", f"{start:%H:%M}", field


def _by_team(text: str) -> dict[str, list[str]]:
    """Return what a repair says to each team: lines that are set in, under the team's name."""
    found: dict[str, list[str]] = {}
    team = ""
    for line in text.splitlines():
        if line.startswith("  "):
            found.setdefault(team, []).append(line.strip())
        else:
            team = line.removesuffix(":")
    return found
