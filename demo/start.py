"""Starts the season with the real commands: rulebook, sign-ups, pools, timetable, rosters."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from demo import folder as files
from demo.desk import Desk, Told
from demo.invent import Alone, SignedUp
from demo.ledger import Ledger
from demo.planner import Planner
from demo.schedule import with_place
from demo.truth import Truth
from demo.world import Person, Team

TIMEZONE: Final = "America/Chicago"


def start(
    truth: Truth, folder: Path, desk: Desk, ledger: Ledger, tell: Callable[[str], None]
) -> str:
    """Bring a season folder from nothing to the eve of its first night; say how it was planned.

    The truth takes its games from the timetable that comes of it.
    """
    words = ("--preset", "eight", "--timezone", TIMEZONE, "--first-day", truth.size.first_day)
    desk.run("new", folder, *words)
    files.set_up(folder, truth.size, truth.invented)
    desk.run("rulebook", "check", folder / "rulebook.toml")
    tell("  The house rules are written over the preset for eights, and checked")
    _Start(truth, folder, desk, ledger).pools()
    tell(f"  {len(truth.teams)} teams have a place and a pool; {ledger.facts} facts")
    planned = Planner(truth, folder, desk, ledger).plan()
    tell(f"  {planned}; {ledger.facts} facts")
    _Start(truth, folder, desk, ledger).rosters()
    people = truth.size.players
    tell(f"  {people} players on {len(truth.teams)} rosters; {ledger.facts} facts")
    files.crews(folder, [*truth.league, *truth.play_offs])
    files.private_files(folder, files.codes(folder), truth.size.last_day)
    return planned


class _Start:
    """Deals sign-ups out and takes the captains' lists in."""

    def __init__(self, truth: Truth, folder: Path, desk: Desk, ledger: Ledger) -> None:
        self._truth = truth
        self._invented = truth.invented
        self._folder = folder
        self._desk = desk
        self._ledger = ledger

    def pools(self) -> None:
        """Let players alone make a team, then deal all teams out, once."""
        invented = self._invented
        files.sign_ups(self._folder, invented.signed_up)
        files.alone(self._folder, invented.alone)
        first = self._told()
        formed = [
            [one["name"] for one in team]
            for block in first["blocks"]
            for team in block["formed"]
        ]
        mine = [[one.name for one in invented.formed.team.players]]
        self._ledger.compare(
            "pools", "the team made of players alone", expected=mine, came=formed
        )
        files.sign_ups(self._folder, [*invented.signed_up, invented.formed])
        used = {one.name for one in invented.formed.team.players}
        files.alone(self._folder, [one for one in invented.alone if one.name not in used])
        self._compare_places(self._told("--write"))

    def _told(self, *more: str) -> Any:
        size = self._truth.size.pool_size
        words = ("pools", self._folder, "--size", size, "--json", *more)
        return self._desk.run(*words).json()

    def _compare_places(self, told: Any) -> None:
        pools = {
            str(one["pool"]): one["teams"] for block in told["blocks"] for one in block["pools"]
        }
        for pool, teams in self._truth.pools.items():
            self._ledger.compare("pools", f"pool {pool}", expected=teams, came=pools.get(pool))
        for block, one in zip(self._truth.size.blocks, told["blocks"], strict=True):
            _, waiting = with_place(self._invented, block)
            names = [each.team.name for each in waiting]
            what = f"who waits for {block.block}"
            self._ledger.compare("pools", what, expected=names, came=one["waiting"])
            offered = [(each["name"], each["team"]) for each in one["offers"]]
            what = f"who is offered a team of {block.block}"
            expected = list(self._offers(block.block))
            self._ledger.compare("pools", what, expected=expected, came=offered)

    def _offers(self, block: str) -> Iterator[tuple[str, str]]:
        """Yield who should be offered where: the first who came, to the one team that is short."""
        used = {one.name for one in self._invented.formed.team.players}
        waiting: list[Alone] = [
            one
            for one in self._invented.alone
            if one.block.block == block and one.name not in used
        ]
        least = self._truth.rules.roster_least
        short: list[SignedUp] = [
            one
            for one in self._invented.signed_up
            if one.block.block == block and one.players < least
        ]
        for one in short:
            for player in waiting[: least - one.players]:
                yield player.name, one.team.name

    def rosters(self) -> None:
        """Take every captain's list, by turns CSV and workbook; one has somebody of another team."""
        lists = self._folder.parent / "lists"
        person, team, another = self._invented.twice
        for index, one in enumerate(self._truth.teams.values()):
            path = lists / f"{index:02}.{'xlsx' if index % 2 else 'csv'}"
            people = [player for player in one.players if player not in one.late]
            if one.name == another.name:
                self._twice(path, one, [*people, replace(person, is_captain=False)], team)
            files.captains_list(path, people)
            told = self._add(path, one).json()
            what = f"players of {one.name}"
            expected = len(people)
            self._ledger.compare("rosters", what, expected=expected, came=told["players"])

    def _twice(self, path: Path, team: Team, people: list[Person], first: Team) -> None:
        """Send a list with somebody who plays elsewhere: it is refused and names the other team."""
        files.captains_list(path, people)
        refused = self._desk.try_(*self._words(path, team))
        faults = [
            (one["code"], one["row"], first.name in one["says"])
            for one in refused.json()["faults"]
        ]
        expected = [("eligibility", len(people) + 1, True)]
        what = f"{people[-1].name} on the list of {team.name} too"
        self._ledger.compare("rosters", what, expected=expected, came=faults)

    def _add(self, path: Path, team: Team) -> Told:
        return self._desk.run(*self._words(path, team))

    def _words(self, path: Path, team: Team) -> tuple[object, ...]:
        return (
            "roster",
            "add",
            self._folder,
            path,
            "--team",
            team.name,
            "--on",
            self._truth.size.first_day,
            "--json",
        )
