"""Betters a timetable by solving small parts of it again, the rest held where it is."""

from collections.abc import Iterator
from itertools import cycle
from typing import Final

from numpy.random import Generator, default_rng

from wholeball.kernel.identity import GameId
from wholeball.solvers.timetable import places
from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.narrow import MISSING, Chosen, fits
from wholeball.solvers.timetable.parts import built
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.search import Search

FREE: Final = 60
"""How many games are free to move at first; fewer or more as the parts prove easy or hard."""
ROUND: Final = 4.0
"""How much one part may take."""


def polished(question: Question, search: Search, begin: Chosen) -> Iterator[Chosen]:
    """Yield better and better timetables, until the search is over or all was free at once."""
    draws = default_rng(search.budget.seed)
    best, size = begin, FREE
    games = list(question.problem.by_game)
    for pick in cycle((_nights, together, _nights, on_end)):
        if search.is_over:
            return
        free = pick(question, best, draws, min(size, len(games)))
        tight = len(question.tight)
        found, is_whole = _again(question, search, best, free)
        if (
            found is None
            and is_whole
            and len(free) == len(games)
            and len(question.tight) == tight
        ):
            return
        size = min(len(games), size * 6 // 5) if is_whole else max(20, size * 4 // 5)
        if found is not None:
            best = found
            if not best.lacks(question):
                search.found(best.cost)
            yield best


def _again(
    question: Question, search: Search, best: Chosen, free: frozenset[GameId]
) -> tuple[Chosen | None, bool]:
    """Solve again with these games free; tell whether nothing better was left to be found."""
    held = {game: place for game, place in best.places.items() if game not in free}
    masks = {
        game: slots & (question.masks[held[game]] if game in held else ~0)
        for game, slots in question.free.items()
    }
    missing = MISSING if best.lacks(question) else None
    build = built(question, places.starts(question, masks), missing=missing)
    hint = as_found(build, best)
    answer = search.sat(build.rows, most=ROUND, hint=hint, good_enough=search.bound)
    is_whole = answer.status == "optimal"
    if not answer.values or answer.cost >= best.cost:
        return None, is_whole
    better = Chosen(places=build.placed(answer.values), cost=answer.cost)
    return (better if fits(question, better) else None), is_whole


def as_found(build: Build, best: Chosen) -> dict[int, int]:
    """Return the columns of games as they are in a timetable, to begin there."""
    return {
        column: int(best.places.get(game) == place)
        for game, columns in build.x.items()
        for place, column in columns.items()
    }


def _nights(question: Question, best: Chosen, draws: Generator, size: int) -> frozenset[GameId]:
    """Free the games of nights drawn one after another."""
    nights = list(question.nights.values())
    return _of_starts(best, [nights[one] for one in draws.permutation(len(nights))], size)


def on_end(question: Question, best: Chosen, draws: Generator, size: int) -> frozenset[GameId]:
    """Free the games of nights on end."""
    nights = list(question.nights.values())
    first = int(draws.integers(len(nights)))
    return _of_starts(best, nights[first:] + nights[:first], size)


def _of_starts(best: Chosen, spans: list[tuple[int, ...]], size: int) -> frozenset[GameId]:
    free: set[GameId] = set()
    for starts in spans:
        free |= {game for game, place in best.places.items() if place in starts}
        if len(free) >= size:
            break
    return frozenset(free)


def together(
    question: Question, best: Chosen, draws: Generator, size: int
) -> frozenset[GameId]:
    """Free the games of pools drawn one after another, or of teams where pools are too large.

    The bracket is one more pool.
    """
    by_pool: dict[object, list[GameId]] = {}
    by_team: dict[object, list[GameId]] = {}
    for pairing in question.problem.pairings:
        if pairing.game in best.places:
            by_pool.setdefault(pairing.pool, []).append(pairing.game)
            for side in pairing.sides:
                by_team.setdefault(side, []).append(pairing.game)
    is_small = max(map(len, by_pool.values()), default=0) <= size
    groups = list((by_pool if is_small else by_team).values())
    free: dict[GameId, None] = {}
    for one in draws.permutation(len(groups)):
        free.update(dict.fromkeys(groups[one]))
        if len(free) >= size:
            break
    return frozenset(free if is_small else [*free][:size])
