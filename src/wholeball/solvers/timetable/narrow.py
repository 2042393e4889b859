"""Solves a model in steps: first what its relaxation is sure of, then all that is near it.

The relaxation is all but a plan: most games are whole in it, and places that add to its cost
are in no plan that costs no more. So small models come first, the whole one last.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.solvers.timetable import fields, highs
from wholeball.solvers.timetable.build import Build, Places
from wholeball.solvers.timetable.highs import Relaxed
from wholeball.solvers.timetable.parts import built
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.search import Search

NEAR: Final = 1.0
"""What a place may add to the least cost to be tried first; costs are whole numbers."""
SURE: Final = 0.999
SMALL: Final = 5_000
"""Up to how many columns HiGHS is asked before CP-SAT."""
QUICK: Final = 1.0
"""How many seconds HiGHS may take, by the clock."""


MISSING: Final = 100_000_000
"""What a game without a place costs while there are any: more than anything else."""


class NoPlanYet(WholeballError):
    """No plan was found in the time, and none was proven to be impossible."""

    def __init__(self) -> None:
        super().__init__(
            "No timetable was found in the time there was, and none was proven to be impossible.",
            fix="Give the search more time, or make a rule that must hold a wish.",
            code="no_plan_yet",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The place of each game, and what they cost by the model."""

    places: Mapping[GameId, int]
    cost: int

    def lacks(self, question: Question) -> frozenset[GameId]:
        """Return the games that have no place."""
        return frozenset(question.free) - frozenset(self.places)


def fits(question: Question, starts: Chosen) -> bool:
    """Tell whether games at these starts can have fields; if not, note which slots are too few."""
    found = fields.matched(question, starts.places)
    if isinstance(found, fields.NoFields):
        question.tight.add(found.slots)
        return False
    return True


def chosen(
    question: Question,
    search: Search,
    places: Places,
    *,
    most: float,
    by_night: bool = False,
    begin: Chosen | None = None,
) -> Chosen | None:
    """Return the best places found with so much of the budget; None where there are none.

    Raises:
        NoPlanYet: none were found, and it is not proven that there are none.
    """
    until = search.left - most
    build = built(question, places, by_night=by_night)
    least = highs.relaxed(build.rows)
    if least is None:
        _doubt(build)
        return None
    if not build.is_narrower:
        search.proves(least.cost)
    best = begin
    for narrowed, share in _steps(build, least):
        if search.is_over or _is_enough(best, search, build):
            break
        step = built(question, narrowed, by_night=by_night)
        hint = _hint(step, best.places if best is not None else _rounded(build, least))
        found = _solved(
            search,
            step,
            hint,
            most=max(0.1, (search.left - until) * share),
            proves=narrowed is places and not build.is_narrower,
        )
        if found == "impossible" and narrowed is places:
            _doubt(build)
            return best
        if isinstance(found, Chosen) and (best is None or found.cost < best.cost):
            best = found
    if best is None:
        raise NoPlanYet
    return best


def _is_enough(best: Chosen | None, search: Search, build: Build) -> bool:
    """Tell whether to widen no more: nothing can be better, or a large model would find nothing."""
    is_large = len(build.rows.costs) > highs.LARGE
    return best is not None and (is_large or best.cost <= search.bound)


def _doubt(build: Build) -> None:
    """Refuse to call a question impossible whose model refuses some plan that is one."""
    if build.is_narrower:
        raise NoPlanYet


def _solved(
    search: Search, build: Build, hint: Mapping[int, int], *, most: float, proves: bool
) -> Chosen | Literal["impossible", "unknown"]:
    """Return the best places of a model, by HiGHS where it is quick, or by CP-SAT.

    Where the model is the whole question, what CP-SAT proves of it is proven of any plan.
    """
    if len(build.rows.costs) <= SMALL:
        quick = search.whole(build.rows, most=min(most, QUICK), good_enough=search.bound)
        if quick is not None and quick.cost <= search.bound:
            return Chosen(places=build.placed(quick.values), cost=quick.cost)
    answer = search.sat(build.rows, most=most, hint=hint, good_enough=search.bound)
    if proves and answer.values:
        search.proves(answer.bound)
    if answer.status == "impossible":
        return "impossible"
    if not answer.values:
        return "unknown"
    return Chosen(places=build.placed(answer.values), cost=answer.cost)


def _rounded(build: Build, least: Relaxed) -> dict[GameId, int]:
    """Return the place of each game of which the relaxation has most."""
    found = {}
    for game, columns in build.x.items():
        parts = {place: float(least.values[column]) for place, column in columns.items()}
        found[game] = max(parts, key=parts.__getitem__)
    return found


def _hint(build: Build, places: Mapping[GameId, int]) -> dict[int, int]:
    return {
        column: int(places.get(game) == place)
        for game, columns in build.x.items()
        for place, column in columns.items()
    }


def _steps(build: Build, least: Relaxed) -> Iterator[tuple[Places, float]]:
    """Yield narrow places first and all of them last, each with its share of what is left."""
    near, sure = _near(build, least), _sure(build, least)
    if len(sure) * 4 > len(near):
        yield {**near, **sure}, 0.25
    yield near, 0.75
    yield build.places, 1.0


def _sure(build: Build, least: Relaxed) -> Places:
    """Return the one place of each game that is whole in the relaxation."""
    return {
        game: {place: build.places[game][place]}
        for game, columns in build.x.items()
        for place, column in columns.items()
        if least.values[column] >= SURE
    }


def _near(build: Build, least: Relaxed) -> Places:
    """Keep the places of each game that add next to nothing to the least cost."""
    is_near = (least.adds < NEAR) | (least.values > 1 - SURE)
    return {
        game: {
            place: build.places[game][place]
            for place, column in columns.items()
            if is_near[column]
        }
        for game, columns in build.x.items()
    }
