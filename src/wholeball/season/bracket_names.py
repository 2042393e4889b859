"""Calls the games of a bracket by the names that a timetable has for them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import Fixture, From, OpenSide
from wholeball.season.bracket_run import Line


def named_as_listed(lines: Sequence[Line], listed: Iterable[Fixture]) -> tuple[Line, ...]:
    """Return the games with the names of the play-off games that list the same two teams.

    A game whose sides nobody knows yet keeps its own name. Where two games would then have one
    name, all keep their own.
    """
    listed_as: dict[frozenset[TeamId | None], GameId] = {
        frozenset((one.home, one.away)): one.game for one in listed if one.stage == "play_off"
    }
    names = {
        line.game.game: listed_as.get(frozenset((line.home, line.away)), line.game.game)
        for line in lines
    }
    if len(set(names.values())) < len(names):
        return tuple(lines)
    return tuple(_called(line, names) for line in lines)


def _called(line: Line, names: Mapping[GameId, GameId]) -> Line:
    game = line.game
    return replace(
        line,
        game=replace(
            game,
            game=names[game.game],
            home=_from(game.home, names),
            away=_from(game.away, names),
        ),
    )


def _from(side: TeamId | OpenSide, names: Mapping[GameId, GameId]) -> TeamId | OpenSide:
    return replace(side, game=names[side.game]) if isinstance(side, From) else side
