"""Says which brackets a season has, and parts it into what each of them is drawn from."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import Fixture
from wholeball.season.result import Result
from wholeball.season.season import Season

_Game = TypeVar("_Game", Fixture, Result)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One bracket of a season: its name, and the season as far as its teams played each other."""

    bracket: str
    season: Season
    prefix: str = "P"
    """What the names of its games begin with, so that no two brackets share one."""

    def of(self, games: Iterable[_Game]) -> tuple[_Game, ...]:
        """Return the games between teams of this part."""
        return _between(frozenset(one.team for one in self.season.league.teams), games)


def brackets_of(season: Season) -> dict[str, tuple[TeamId, ...]]:
    """Return the teams that play for each bracket, by its name, in the order of the divisions.

    Divisions play off apart, each for the bracket that it names, unless the season has one
    bracket. A season of one division has one, which is called "".
    """
    teams = season.league.teams
    found: dict[str, list[TeamId]] = {one.division: [] for one in season.league.divisions}
    for one in teams:
        found.setdefault(one.division or "", []).append(one.team)
    played = {name: tuple(members) for name, members in found.items() if members}
    if season.has_one_bracket or len(played) < 2:
        return {"": tuple(one.team for one in teams)}
    return played


def parted(season: Season) -> tuple[Part, ...]:
    """Return each bracket with its part of the season; of a single one that is all of it."""
    brackets = brackets_of(season)
    if len(brackets) == 1:
        return (Part(bracket="", season=season),)
    return tuple(
        Part(bracket=name, season=_part(season, frozenset(teams)), prefix=f"P{number}.")
        for number, (name, teams) in enumerate(brackets.items(), start=1)
    )


def _part(season: Season, members: frozenset[TeamId]) -> Season:
    teams = tuple(one for one in season.league.teams if one.team in members)
    return replace(
        season,
        league=replace(season.league, teams=teams),
        results=_between(members, season.results),
        deductions=tuple(one for one in season.deductions if one.team in members),
        play_offs=_between(members, season.play_offs),
    )


def _between(members: frozenset[TeamId], games: Iterable[_Game]) -> tuple[_Game, ...]:
    return tuple(one for one in games if one.home in members and one.away in members)
