"""Finds what is wrong with a row of timetable.csv once each of its cells is read."""

from collections.abc import Collection, Iterator
from datetime import date, time
from typing import Final
from zoneinfo import ZoneInfo

from wholeball.files.local_times import CURES, SAYS, odd
from wholeball.files.open_sides import open_side
from wholeball.files.row_faults import Known, Wrong, outside_season, row_fault, unknown
from wholeball.files.table import Line
from wholeball.kernel.faults import Fault
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import League
from wholeball.season.result import Result

_SIDES: Final = ("home", "away")


class FixtureChecks:
    """Checks the rows of one file against a league, its results, and the rows before them."""

    def __init__(
        self,
        file: str,
        league: League,
        played: tuple[Result, ...],
        *,
        bracket_games: Collection[str] = (),
        fields: Known | None = None,
    ) -> None:
        self._file = file
        self._bracket_games = bracket_games
        self._known_fields = fields
        self._league = league
        self._zone = ZoneInfo(league.timezone)
        self._pools = {str(team.team): team.pool for team in league.teams}
        self._names = Known(self._pools, "Use a name of teams.csv.")
        self._played = {str(result.game): (result.home, result.away) for result in played}
        self._games: dict[str, int] = {}
        self._fields: dict[tuple[date, time, str], int] = {}
        self._busy: dict[tuple[date, time, str], int] = {}

    def faults(self, line: Line) -> list[Fault]:
        """Return everything wrong with a row; an empty list is a pass."""
        wrong = [
            *self._identity(line),
            *self._sides(line),
            *outside_season(self._league, line.get("date", date)),
            *unknown(line, "field", self._known_fields, "field of fields.csv"),
            *self._clock(line),
            *self._field(line),
            *self._at_once(line),
        ]
        return [row_fault(self._file, line, one) for one in wrong]

    def _identity(self, line: Line) -> Iterator[Wrong]:
        game = line.need("game", str)
        first = self._games.setdefault(game, line.row)
        if first != line.row:
            says = f"game {game} stands on row {first} too."
            yield Wrong("game", "duplicate", says, "Each game stands once; take one out.")
        sides = (line.need("home", str), line.need("away", str))
        played = self._played.get(game, sides)
        if any(map(open_side, sides)):
            if game in self._played and game not in self._bracket_games:
                says = f"game {game} is of the bracket here, and not in results.csv."
                yield Wrong("game", "contradiction", says, "Write play_off as its stage there.")
        elif played != sides:
            says = f"game {game} is {' v '.join(sides)} here and {' v '.join(played)} in results.csv."
            yield Wrong("game", "contradiction", says, "Mend the one that is wrong.")

    def _sides(self, line: Line) -> Iterator[Wrong]:
        home, away = line.need("home", str), line.need("away", str)
        named = [side for side in _SIDES if open_side(line.need(side, str)) is None]
        lacking = [side for side in named if line.need(side, str) not in self._pools]
        for side in lacking:
            name = line.need(side, str)
            says = f"{toml_text(name)} is no team of teams.csv."
            yield Wrong(side, "unknown_team", says, self._names.meant(name))
        if (open_side(home) or home) == (open_side(away) or away):
            yield Wrong("away", "self", f"{home} cannot play itself.", "Name the opponents.")
        elif not lacking and len(named) == len(_SIDES) and self._crosses_pools(line):
            says = f"{home} plays in pool {self._pools[home]}, {away} in {self._pools[away]}."
            cure = "Write play_off as its stage, or mend the teams or their pools."
            yield Wrong("away", "pools", says, cure)

    def _crosses_pools(self, line: Line) -> bool:
        home, away = (self._pools[line.need(side, str)] for side in _SIDES)
        return home != away and line.get("stage", str) in (None, "", "league", "decider")

    def _clock(self, line: Line) -> Iterator[Wrong]:
        """Find a start that happens twice or not at all, as the clocks change that night."""
        day, at = _when(line)
        wrong = odd(self._zone, day, at)
        if wrong is not None:
            yield Wrong("start", wrong, f"{at:%H:%M} on {day} {SAYS[wrong]}.", CURES[wrong])

    def _field(self, line: Line) -> Iterator[Wrong]:
        """Find two games on one field at one start."""
        at, field = _when(line), line.need("field", str)
        first = self._fields.setdefault((*at, field.casefold()), line.row)
        if first != line.row:
            says = f"{field} has a game at {at[1]:%H:%M} on row {first} too."
            yield Wrong("field", "clash", says, "Give one of them another field or start.")

    def _at_once(self, line: Line) -> Iterator[Wrong]:
        """Find a team that would play two games at one start."""
        at = _when(line)
        for side in _SIDES:
            team = line.need(side, str)
            if open_side(team) is not None:
                continue
            first = self._busy.setdefault((*at, team), line.row)
            if first != line.row:
                says = f"{team} plays at {at[1]:%H:%M} on row {first} too."
                yield Wrong(side, "clash", says, "Give one of them another start or day.")


def _when(line: Line) -> tuple[date, time]:
    return line.need("date", date), line.need("start", time)
