"""Finds what is wrong with a row of results.csv once each of its cells is read."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Final

from wholeball.files.row_faults import Known, Wrong, outside_season, row_fault
from wholeball.files.table import Line
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import PoolId
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import League
from wholeball.rulebook.tables.season import Ratings

_SCORED: Final = ("played", "awarded")
_GIVEN_UP: Final = ("forfeit", "default")
_NO_GOALS: Final = "Write the goals that stand, 0 to 99."
_NO_RESULT: Final = f"{_NO_GOALS} Leave out games to come: they stand in timetable.csv."


class RowChecks:
    """Checks the rows of one file against a league, and against the rows before them."""

    def __init__(self, file: str, league: League, ratings: Ratings) -> None:
        self._file = file
        self._league = league
        self._ratings = ratings
        self._pools = {str(team.team): team.pool for team in league.teams}
        self._names = Known(self._pools, "Use a name of teams.csv.")
        self._rows: dict[str, int] = {}
        self._met: dict[tuple[int, frozenset[str]], int] = {}

    def faults(self, line: Line) -> list[Fault]:
        """Return everything wrong with a row; an empty list is a pass."""
        wrong = [
            *self._identity(line),
            *self._teams(line),
            *_goals(line),
            *_giving_up(line),
            *_as_played(line),
            *_kicks(line),
            *outside_season(self._league, line.get("date", date)),
            *self._rated(line),
        ]
        return [row_fault(self._file, line, one) for one in wrong]

    def _identity(self, line: Line) -> Iterator[Wrong]:
        game = line.need("game", str)
        first = self._rows.setdefault(game, line.row)
        if first != line.row:
            says = f"game {game} stands on row {first} too."
            yield Wrong("game", "duplicate", says, "Each game stands once; take one out.")

    def _teams(self, line: Line) -> Iterator[Wrong]:
        home, away = line.need("home", str), line.need("away", str)
        unknown = [side for side in ("home", "away") if line.need(side, str) not in self._pools]
        for side in unknown:
            name = line.need(side, str)
            says = f"{toml_text(name)} is no team of teams.csv."
            yield Wrong(side, "unknown_team", says, self._names.meant(name))
        if home == away:
            yield Wrong("away", "self", f"{home} cannot play itself.", "Name the opponents.")
        elif not unknown and self._crosses_pools(line):
            says = f"{home} plays in pool {self._pool(home)}, {away} in {self._pool(away)}."
            cure = "A table counts games within a pool; mend the teams or their pools."
            yield Wrong("away", "pools", says, cure)
        else:
            yield from self._twice(line, home, away)

    def _crosses_pools(self, line: Line) -> bool:
        """Tell whether teams of two pools meet outside the bracket."""
        home, away = (self._pool(line.need(side, str)) for side in ("home", "away"))
        return home != away and line.get("stage", str) != "play_off"

    def _twice(self, line: Line, home: str, away: str) -> Iterator[Wrong]:
        """Doubt a second game of the same two teams in one round: it is easily typed twice."""
        round_ = line.need("round", int)
        first = self._met.setdefault((round_, frozenset({home, away})), line.row)
        if first != line.row:
            says = f"{home} and {away} meet in round {round_} on row {first} too; both count."
            cure = "Take one out if it is the same game."
            yield Wrong("away", "duplicate", says, cure, "doubt")

    def _pool(self, team: str) -> PoolId:
        return self._pools[team]

    def _rated(self, line: Line) -> Iterator[Wrong]:
        scale = self._ratings.scale
        for column in ("home_rating", "away_rating"):
            rating = line.get(column, Decimal)
            if rating is not None and not scale.has(rating):
                says = f"{column} is {rating}."
                cure = f"Give one of {scale.low} to {scale.high} in steps of {scale.step}."
                yield Wrong(column, "range", says, cure)


def _goals(line: Line) -> Iterator[Wrong]:
    how = line.get("how", str) or "played"
    columns = ("home_goals", "away_goals")
    if how == "played" and all(line.get(column, int) is None for column in columns):
        says = "a game that was played needs home_goals and away_goals."
        yield Wrong("home_goals", "missing", says, _NO_RESULT)
        return
    for column in columns:
        given = line.get(column, int) is not None
        if how in _SCORED and not given:
            says = f"a game that was {how} needs {column}."
            yield Wrong(column, "missing", says, _NO_GOALS)
        if how not in _SCORED and given:
            says = f"{column} is given, but the rulebook scores a game that is {how}."
            cure = "Leave it empty; goals already played go to home_played and away_played."
            yield Wrong(column, "contradiction", says, cure)


def _giving_up(line: Line) -> Iterator[Wrong]:
    how, by = line.get("how", str) or "played", line.get("by", str)
    if how in _GIVEN_UP and by is None:
        yield Wrong("by", "missing", f"a {how} needs to say by whom.", "Write home or away.")
    if how not in _GIVEN_UP and by is not None:
        says = f"by is {by}, but the game is {how}."
        yield Wrong("by", "contradiction", says, "Only a forfeit or a default is by a side.")


def _as_played(line: Line) -> Iterator[Wrong]:
    how = line.get("how", str) or "played"
    home, away = line.get("home_played", int), line.get("away_played", int)
    if (home is None) != (away is None):
        empty = "home_played" if home is None else "away_played"
        yield Wrong(
            empty, "missing", f"{empty} is empty.", "Give both goals as played, or none."
        )
    if how == "played" and home is not None:
        says = "the game was played, so what was played is what stands."
        cure = "Leave home_played and away_played empty, or say how = awarded."
        yield Wrong("home_played", "contradiction", says, cure)


def _kicks(line: Line) -> Iterator[Wrong]:
    """Find kicks that decide nothing: only a level game that was played needs them."""
    home, away = line.get("home_kicks", int), line.get("away_kicks", int)
    if home is None and away is None:
        return
    how = line.get("how", str) or "played"
    goals = tuple(line.get(column, int) for column in ("home_goals", "away_goals"))
    if home is None or away is None:
        empty = "home_kicks" if home is None else "away_kicks"
        cure = "Give the goals of both sides from the kicks, or none."
        yield Wrong(empty, "missing", f"{empty} is empty.", cure)
    elif home == away:
        says = f"kicks are level at {home} each, and decide nothing."
        yield Wrong("away_kicks", "contradiction", says, "Mend them, or leave both empty.")
    if how != "played" or goals[0] != goals[1]:
        says = "kicks are given, but the game is not one that was played and level."
        cure = "Leave home_kicks and away_kicks empty, or mend the goals."
        yield Wrong("home_kicks", "contradiction", says, cure)
