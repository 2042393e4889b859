"""Solves a model in steps: first what its relaxation is sure of, then all that is near it.

The relaxation is all but a plan: most games are whole in it, and places that add to its cost
are in no plan that costs no more. So small models come first, the whole one last.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.solvers.timetable import fields, highs
from wholeball.solvers.timetable.build import Build, Places
from wholeball.solvers.timetable.highs import Relaxed
from wholeball.solvers.timetable.parts import built
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.sat import ENOUGH
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
SOON: Final = 15.0
"""How much the first places may take, so that there is a plan to tell of."""


Nothing: TypeAlias = Literal["impossible", "unknown"]
"""That a model has no answer, or that none was found in time."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """What is asked: among which places, with how much of the budget, from where on.

    The first places that are found, if they can be better, are told to `on_first` at once.
    """

    places: Places
    most: float
    by_night: bool = False
    begin: Chosen | None = None
    on_first: Callable[[Chosen], None] | None = None


def chosen(question: Question, search: Search, ask: Ask) -> Chosen | None:
    """Return the best places found; None where there are none.

    Raises:
        NoPlanYet: none were found, and it is not proven that there are none.
    """
    until = search.left - ask.most
    build = built(question, ask.places, by_night=ask.by_night)
    least = highs.relaxed(build.rows)
    sure = least
    if build.is_narrower:
        wide = built(question, ask.places, by_night=ask.by_night, is_wide=True)
        sure = highs.relaxed(wide.rows)
    if sure is None:
        return None
    search.proves(sure.cost)
    if least is None:
        raise NoPlanYet
    best = ask.begin
    for narrowed, share in _steps(build, least):
        is_last = narrowed is ask.places
        if _is_done(search, build, best, is_last=is_last):
            break
        step = built(question, narrowed, by_night=ask.by_night)
        found = _solved(
            search,
            step,
            _hint(step, best.places if best is not None else _rounded(build, least)),
            most=max(0.1, (search.left - (until if best is not None else 0)) * share),
            is_first=best is None,
            proves=is_last and not build.is_narrower,
        )
        if found == "impossible" and is_last:
            _doubt(build)
            return best
        best = _better(search, ask, best, found)
    if best is None:
        raise NoPlanYet
    return best


def _is_done(search: Search, build: Build, best: Chosen | None, *, is_last: bool) -> bool:
    """Tell whether to go no further: a large model, whole, would find nothing better."""
    if search.is_over:
        return True
    is_large = len(build.rows.costs) > highs.LARGE
    return best is not None and (best.cost <= search.bound or (is_last and is_large))


def _better(
    search: Search, ask: Ask, best: Chosen | None, found: Chosen | Nothing
) -> Chosen | None:
    """Return the cheaper places; tell of them where they are the first."""
    if not isinstance(found, Chosen) or (best is not None and found.cost >= best.cost):
        return best
    if best is None and ask.on_first is not None and found.cost > search.bound:
        ask.on_first(found)
    return found


def _doubt(build: Build) -> None:
    """Refuse to call a question impossible whose model refuses some plan that is one."""
    if build.is_narrower:
        raise NoPlanYet


def _solved(
    search: Search,
    build: Build,
    hint: Mapping[int, int],
    *,
    most: float,
    is_first: bool,
    proves: bool,
) -> Chosen | Nothing:
    """Return the best places of a model, by HiGHS where it is quick, or by CP-SAT.

    Where the model is the whole question, what CP-SAT proves of it is proven of any plan.
    """
    if len(build.rows.costs) <= SMALL:
        quick = search.whole(build.rows, most=min(most, QUICK), good_enough=search.bound)
        if quick is not None and quick.cost <= search.bound:
            return Chosen(places=build.placed(quick.values), cost=quick.cost)
    answer = search.sat(
        build.rows,
        most=most,
        soon=min(most, SOON) if is_first else ENOUGH,
        hint=hint,
        good_enough=search.bound,
    )
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
    else:
        yield near, 0.5
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
