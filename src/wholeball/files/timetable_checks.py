"""Finds what is wrong with a row of timetable.csv once each of its cells is read."""

from collections.abc import Iterator
from datetime import date, time, timedelta
from typing import Final, NamedTuple

from wholeball.files.table import Line
from wholeball.kernel.faults import MOST_SHOWN, Fault, Level, Place
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import League
from wholeball.season.result import Result

_YEAR: Final = timedelta(days=365)
_SIDES: Final = ("home", "away")


class _Wrong(NamedTuple):
    column: str
    code: str
    says: str
    cure: str
    level: Level = "fault"


class FixtureChecks:
    """Checks the rows of one file against a league, its results, and the rows before them."""

    def __init__(self, file: str, league: League, played: tuple[Result, ...]) -> None:
        self._file = file
        self._league = league
        self._pools = {str(team.team): team.pool for team in league.teams}
        self._played = {str(result.game): (result.home, result.away) for result in played}
        self._games: dict[str, int] = {}
        self._fields: dict[tuple[date, time, str], int] = {}
        self._busy: dict[tuple[date, time, str], int] = {}
        self._hints: dict[str, str] = {}

    def faults(self, line: Line) -> list[Fault]:
        """Return everything wrong with a row; an empty list is a pass."""
        wrong = [
            *self._identity(line),
            *self._sides(line),
            *self._day(line),
            *self._field(line),
            *self._at_once(line),
        ]
        return [self._fault(line, one) for one in wrong]

    def _fault(self, line: Line, wrong: _Wrong) -> Fault:
        return Fault(
            code=wrong.code,
            place=Place(file=self._file, row=line.row, column=wrong.column),
            says=wrong.says,
            value=str(line.cells[wrong.column]),
            cure=wrong.cure,
            level=wrong.level,
        )

    def _identity(self, line: Line) -> Iterator[_Wrong]:
        game = line.need("game", str)
        first = self._games.setdefault(game, line.row)
        if first != line.row:
            says = f"game {game} stands on row {first} too."
            yield _Wrong("game", "duplicate", says, "Each game stands once; take one out.")
        sides = (line.need("home", str), line.need("away", str))
        played = self._played.get(game, sides)
        if played != sides:
            says = f"game {game} is {' v '.join(sides)} here and {' v '.join(played)} in results.csv."
            yield _Wrong("game", "contradiction", says, "Mend the one that is wrong.")

    def _sides(self, line: Line) -> Iterator[_Wrong]:
        home, away = line.need("home", str), line.need("away", str)
        unknown = [side for side in _SIDES if line.need(side, str) not in self._pools]
        for side in unknown:
            name = line.need(side, str)
            says = f"{toml_text(name)} is no team of teams.csv."
            yield _Wrong(side, "unknown_team", says, self._meant(name))
        if home == away:
            yield _Wrong("away", "self", f"{home} cannot play itself.", "Name the opponents.")
        elif not unknown and self._crosses_pools(line):
            says = f"{home} plays in pool {self._pools[home]}, {away} in {self._pools[away]}."
            cure = "Write play_off as its stage, or mend the teams or their pools."
            yield _Wrong("away", "pools", says, cure)

    def _crosses_pools(self, line: Line) -> bool:
        home, away = (self._pools[line.need(side, str)] for side in _SIDES)
        return home != away and line.get("stage", str) != "play_off"

    def _meant(self, name: str) -> str:
        """Return the cure for a wrong name, looked for once a name and for 100 names."""
        if len(self._hints) < MOST_SHOWN:
            self._hints.setdefault(name, did_you_mean(name, self._pools))
        return self._hints.get(name, "Use a name of teams.csv.")

    def _day(self, line: Line) -> Iterator[_Wrong]:
        day = line.need("date", date)
        first, last = self._league.first_day, self._league.last_day
        if first <= day <= last:
            return
        far = first - day > _YEAR or day - last > _YEAR
        says = f"{day} is outside the season, {first} to {last}."
        cure = "Mend the day, or the season's days in season.toml."
        yield _Wrong("date", "range", says, cure, "fault" if far else "doubt")

    def _field(self, line: Line) -> Iterator[_Wrong]:
        """Find two games on one field at one start."""
        at, field = _when(line), line.need("field", str)
        first = self._fields.setdefault((*at, field.casefold()), line.row)
        if first != line.row:
            says = f"{field} has a game at {at[1]:%H:%M} on row {first} too."
            yield _Wrong("field", "clash", says, "Give one of them another field or start.")

    def _at_once(self, line: Line) -> Iterator[_Wrong]:
        """Find a team that would play two games at one start."""
        at = _when(line)
        for side in _SIDES:
            team = line.need(side, str)
            first = self._busy.setdefault((*at, team), line.row)
            if first != line.row:
                says = f"{team} plays at {at[1]:%H:%M} on row {first} too."
                yield _Wrong(side, "clash", says, "Give one of them another start or day.")


def _when(line: Line) -> tuple[date, time]:
    return line.need("date", date), line.need("start", time)
