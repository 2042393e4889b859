"""Chooses the nights of a large question: most by the relaxation alone, then pools of them again.

One model of all games and nights is too large to be bettered as a whole. What the relaxation
leads to is within some per cent; each time some pools are solved again, the rest held.
"""

from itertools import cycle
from typing import Final

from numpy.random import default_rng

from wholeball.kernel.identity import GameId
from wholeball.solvers.timetable.build import Places
from wholeball.solvers.timetable.dive import Dived, dived
from wholeball.solvers.timetable.narrow import Ask, Chosen, chosen
from wholeball.solvers.timetable.parts import built
from wholeball.solvers.timetable.polish import as_found, on_end, together
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.search import Search

LARGE: Final = 8_000
"""From how many games at nights on it is done so."""
CLOSE: Final = 1.015
"""How near the relaxation the nights need come: then the same time does more for the starts."""
SOON: Final = 6.0
"""How much the first nights may take, so that there is a plan to tell of."""
FREE: Final = 660
"""How many games are free to move at first; fewer as the parts prove hard, more where easy."""
SHARE: Final = 0.4
"""The share of games that is free to move at first at most."""
ROUND: Final = 3.0
"""How much one part may take."""


def nights(question: Question, search: Search, ask: Ask) -> Chosen | None:
    """Return the best nights found; None where there are none.

    Raises:
        NoPlanYet: none were found, and it is not proven that there are none.
    """
    if sum(map(len, ask.places.values())) <= LARGE:
        return chosen(question, search, ask)
    return by_parts(question, search, ask)


def by_parts(question: Question, search: Search, ask: Ask) -> Chosen | None:
    """Return the best nights found, pools after pools, from what the relaxation leads to.

    Raises:
        NoPlanYet: as `nights`.
    """
    until = search.left - ask.most
    whole = built(question, ask.places, by_night=True)
    found = dived(question, whole, default_rng(search.budget.seed))
    if found is None:
        return None
    best = _first(question, search, found)
    if best is None:
        return chosen(question, search, ask)
    if ask.on_first is not None and best.cost > search.bound:
        ask.on_first(best)
    return _bettered(question, search, ask, found, best=best, until=until)


def _first(question: Question, search: Search, found: Dived) -> Chosen | None:
    """Return the first nights, of those of all games if what was decided leaves none."""
    enough = max(search.bound, CLOSE * found.cost)
    for places in ({**found.few, **found.decided}, found.few):
        build = built(question, places, by_night=True)
        most = search.left / 4
        answer = search.sat(build.rows, most=most, soon=min(most, SOON), good_enough=enough)
        if answer.values:
            return Chosen(places=build.placed(answer.values), cost=answer.cost)
    return None


def _bettered(
    question: Question, search: Search, ask: Ask, found: Dived, *, best: Chosen, until: float
) -> Chosen:
    """Solve pools again until nights are near enough to the relaxation, or `until` is left."""
    draws = default_rng(search.budget.seed)
    size = min(FREE, int(SHARE * len(ask.places)))
    for pick in cycle((together, on_end)):
        enough = max(search.bound, CLOSE * found.cost)
        if search.left <= until or search.is_over or best.cost <= enough:
            break
        free = pick(question, best, draws, size)
        build = built(question, _around(ask.places, found, best, free), by_night=True)
        answer = search.sat(
            build.rows, most=ROUND, hint=as_found(build, best), good_enough=enough
        )
        if answer.status == "optimal":
            size = size * 6 // 5
        elif not answer.values or answer.cost >= best.cost:
            size = max(60, size * 4 // 5)
        if answer.values and answer.cost < best.cost:
            best = Chosen(places=build.placed(answer.values), cost=answer.cost)
    return best


def _around(places: Places, found: Dived, best: Chosen, free: frozenset[GameId]) -> Places:
    """Return the place that each game has, and for free ones the few besides."""
    held = {game: {place: places[game][place]} for game, place in best.places.items()}
    return {
        game: {**found.few[game], **held[game]} if game in free else held[game]
        for game in places
    }
