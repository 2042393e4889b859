"""Decides most nights of a large question by its relaxation alone, some games at a time.

Costs are tilted by a hair, so that among all that cost the least the relaxation leans to few
places a game. Those that it is surest of are decided, and it is asked again: each time it is
smaller, and it costs next to nothing more.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import Final

from numpy.random import Generator

from wholeball.kernel.identity import GameId
from wholeball.solvers.timetable import highs
from wholeball.solvers.timetable.build import Build, Places
from wholeball.solvers.timetable.highs import Relaxed
from wholeball.solvers.timetable.parts import built
from wholeball.solvers.timetable.question import Question

PLACES: Final = 8_000
"""How many places are kept of all games: those that the relaxation leans to most."""
CHOICES: Final = (6, 40)
"""How many of them a game has at least, and at most."""
SHARES: Final = (0.1, 0.25)
"""The share of undecided games that is decided each time, the surest first: of few, of many."""
MANY: Final = 1_000
"""How many games are many: then time does more for the starts than for finer steps."""
SURE: Final = 0.99
MOST: Final = 0.66
"""The share of games that is decided at most; the more, the oftener the rest has no places."""
DEARER: Final = 1.02
"""How much dearer what is decided may make the relaxation, and one more besides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dived:
    """The few places of each game, the one of each decided game, and the cost with fractions.

    The cost is that before any game was decided; a plan may cost a hair less.
    """

    few: Places
    decided: Places
    cost: float


def dived(question: Question, whole: Build, draws: Generator) -> Dived | None:
    """Return what a relaxation by night leads to; None where it has no answer."""
    least = _leaning(whole, draws)
    if least is None:
        return None
    few, cost = _few(whole, least), least.cost
    build, decided = whole, dict[GameId, dict[int, int]]()
    while True:
        more = decided | dict(_surest(build, least, decided))
        if len(more) > MOST * len(few) + 1 and decided:
            break
        build = built(question, {**few, **more}, by_night=True)
        least = _leaning(build, draws)
        if least is None or (least.cost > DEARER * cost + 1 and decided):
            break
        decided = more
    return Dived(few=few, decided=decided, cost=cost)


def _leaning(build: Build, draws: Generator) -> Relaxed | None:
    columns = [column for where in build.x.values() for column in where.values()]
    return highs.leaning(build.rows, columns, draws)


def _few(build: Build, least: Relaxed) -> Places:
    """Keep the places of each game that add least, of these first what the relaxation has."""
    few = {}
    fewest, most = CHOICES
    choices = min(most, max(fewest, PLACES // len(build.x)))
    for game, where in build.x.items():
        adds = {place: float(least.adds[of] - least.values[of]) for place, of in where.items()}
        first = sorted(adds, key=adds.__getitem__)[:choices]
        few[game] = {place: build.places[game][place] for place in first}
    return few


def _surest(
    build: Build, least: Relaxed, decided: Places
) -> Iterator[tuple[GameId, dict[int, int]]]:
    """Yield the undecided games of whose place the relaxation is surest."""
    parts = {
        game: max((float(least.values[column]), place) for place, column in where.items())
        for game, where in build.x.items()
        if game not in decided
    }
    sure = sum(part >= SURE for part, _ in parts.values())
    share = SHARES[len(build.x) >= MANY]
    count = max(sure, ceil(share * len(parts)))
    for game in sorted(parts, key=parts.__getitem__, reverse=True)[:count]:
        place = parts[game][1]
        yield game, {place: build.places[game][place]}
