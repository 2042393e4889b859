"""Calls the games of a bracket by the names that a plan or a timetable has for them."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import product
from typing import Protocol, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, OpenSide, Seeded
from wholeball.season.bracket_run import Line

Side: TypeAlias = TeamId | OpenSide


class Listed(Protocol):
    """A play-off game with a name, and what brings its sides."""

    @property
    def game(self) -> GameId:
        """Its name."""

    @property
    def home(self) -> Side:
        """The side listed first."""

    @property
    def away(self) -> Side:
        """The side listed second."""


def named_as_listed(
    lines: Sequence[Line], listed: Iterable[Listed], *, bracket: str = ""
) -> tuple[Line, ...]:
    """Return the games of a bracket, each with the name of the listed game that has its sides.

    A side is its team, its seed in this `bracket`, or the game that brings it, by its new name.
    Of two games with the same sides the one listed last counts. What is not listed keeps its
    own name; where two games would then have one name, all keep their own.
    """
    listed_as = {frozenset((one.home, one.away)): one.game for one in listed}
    names: dict[GameId, GameId] = {}
    for line in lines:
        game = line.game
        sides = product(
            _keys(line.home, game.home, names, bracket),
            _keys(line.away, game.away, names, bracket),
        )
        found = (listed_as.get(frozenset(pair)) for pair in sides)
        names[game.game] = next((one for one in found if one is not None), game.game)
    if len(set(names.values())) < len(names):
        return tuple(lines)
    return tuple(_called(line, names) for line in lines)


def _keys(
    team: TeamId | None, side: Side, names: Mapping[GameId, GameId], bracket: str
) -> Iterator[Side]:
    """Yield what a list may say of a side: who it is, and what brings it."""
    if team is not None:
        yield team
    if isinstance(side, Seeded):
        yield replace(side, bracket=bracket)
    elif isinstance(side, From):
        yield _from(side, names)


def _called(line: Line, names: Mapping[GameId, GameId]) -> Line:
    game = line.game
    home, away = _from(game.home, names), _from(game.away, names)
    return replace(line, game=replace(game, game=names[game.game], home=home, away=away))


def _from(side: Side, names: Mapping[GameId, GameId]) -> Side:
    return replace(side, game=names[side.game]) if isinstance(side, From) else side
