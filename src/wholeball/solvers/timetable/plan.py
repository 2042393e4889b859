"""Plans a timetable: the best plan found in a budget, with what any plan must cost at least.

Nights come first, since rest, weeks and dislikes are about nights; then the starts of all
nights together; then both at once, whole where the question is small, part by part where it is
large. Fields are matched to the games of each start at the end.
"""

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from threading import Thread
from typing import Final

from wholeball.planning.answer import Impossible, Plan
from wholeball.planning.check import check
from wholeball.planning.problem import Placement, TimetableProblem
from wholeball.solvers.timetable import fields, large, places
from wholeball.solvers.timetable.bound import bound
from wholeball.solvers.timetable.budget import Budget, OnProgress, Stop
from wholeball.solvers.timetable.explain import explained
from wholeball.solvers.timetable.narrow import MISSING, Ask, Chosen, NoPlanYet, chosen, fits
from wholeball.solvers.timetable.parts import asked, built
from wholeball.solvers.timetable.polish import polished
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.search import Search

WHOLE: Final = 300
"""Up to how many games the starts of all nights are also decided in one model."""
PLACES: Final = 20_000
"""Up to how many starts of all games it is done so: CP-SAT betters no larger model as a whole."""
SHORT: Final = 2.0
"""How long it is tried whether a question has a plan, in CP-SAT's own measure."""
EARLY: Final = 10.0
"""How much the first starts may take, so that there is a plan to tell of."""
LARGE: Final = 20_000
"""From how many games times nights on a bound takes longer than a first plan."""
LEAST: Final = 10.0
"""How many seconds a bound is given at least, whatever is left."""
NIGHTS: Final = 0.6
"""The share of the budget that nights may take."""
LONGEST: Final = 100.0
"""How much nights may take at most."""


def plan(
    problem: TimetableProblem,
    budget: Budget,
    *,
    on_progress: OnProgress | None = None,
    stop: Stop | None = None,
) -> Plan | Impossible:
    """Return the best plan found, or why there is none.

    Raises:
        NoPlanYet: the budget ended before a plan was found or proven to be impossible.
    """
    search = Search(budget, on_progress, stop)
    question = asked(problem)
    with proving(problem, search):
        found = best(question, search)
    if found is None:
        return explained(problem, can_be if len(question.free) <= WHOLE else None)
    placements = fields.placements(
        question,
        found.places,
        search,
        on_better=lambda better: search.costs(check(problem, better).total),
    )
    return checked(problem, placements, search.bound)


def can_be(problem: TimetableProblem) -> bool:
    """Tell whether a question has a plan, as far as a short search finds one."""
    musts = replace(
        problem, rules=tuple(one for one in problem.rules if one.strength == "must")
    )
    search = Search(Budget(work=SHORT, workers=1))
    search.proves(0)
    try:
        return best(asked(musts), search) is not None
    except NoPlanYet:
        return False


@contextmanager
def proving(problem: TimetableProblem, search: Search) -> Iterator[None]:
    """Prove a bound before a search; where that takes long, beside it once there is a plan."""
    nights = {start.night for start in problem.starts}
    is_quick = len(problem.pairings) * len(nights) <= LARGE
    if is_quick or not search.is_by_clock:
        search.proves(bound(problem))
        yield
        return

    def prove() -> None:
        search.has_plan.wait()
        if search.best is not None:
            search.proves(bound(problem, seconds=max(LEAST, search.left)))

    beside = Thread(target=prove)
    beside.start()
    try:
        yield
    finally:
        search.has_plan.set()
        beside.join()


def checked(problem: TimetableProblem, placements: tuple[Placement, ...], bound: float) -> Plan:
    """Return a plan, checked by what shares no code with the models; none costs less than `bound`.

    Raises:
        ValueError: it breaks a rule that must hold, which is a fault of the models.
    """
    report = check(problem, placements)
    if report.broken:
        says = " ".join(one.says for one in report.broken[:3])
        raise ValueError(f"the timetable breaks what must hold: {says}")
    least = max(0.0, min(bound, report.total))
    return Plan(
        placements=placements,
        total=report.total,
        bound=least,
        proof="optimal" if report.total <= least else "gap",
        lines=report.lines,
    )


def best(question: Question, search: Search) -> Chosen | None:
    """Return the best timetable found within the budget; None where there is none.

    Raises:
        NoPlanYet: none was found, and it is not proven that there is none.
    """
    if not question.free:
        return Chosen(places={}, cost=0)
    if not all(question.free.values()):
        return None
    found = _by_nights(question, search)
    if found is None:
        return None
    if _is_small(question) and not search.is_over:
        whole = _whole(question, search, found)
        if whole is None:
            return None
        found = whole
    for better in polished(question, search, found):
        found = better
    if found.lacks(question):
        raise NoPlanYet
    return found


def _is_small(question: Question) -> bool:
    """Tell whether all starts of all games are decided in one model."""
    count = sum(map(len, places.starts(question).values()))
    return len(question.free) <= WHOLE and count <= PLACES


def _by_nights(question: Question, search: Search) -> Chosen | None:
    """Return the best starts in the best nights, or in the first ones if those prove better."""
    early: list[Chosen] = []

    def tell_early(nights: Chosen) -> None:
        with suppress(NoPlanYet):
            early.append(_starts(question, search, nights, most=min(EARLY, search.left / 4)))

    ask = Ask(
        places=places.nights(question),
        most=min(LONGEST, search.left * NIGHTS),
        by_night=True,
        on_first=tell_early,
    )
    found = large.nights(question, search, ask)
    if found is None:
        return None
    try:
        last = _starts(question, search, found, most=search.left / 2)
    except NoPlanYet:
        if not early:
            raise
        return early[0]
    return min((*early, last), key=lambda one: one.cost)


def _starts(question: Question, search: Search, nights: Chosen, *, most: float) -> Chosen:
    """Return the best starts in these nights; a game that fits in nowhere has none."""
    masks = places.night_masks(question)
    slots = {game: question.free[game] & masks[night] for game, night in nights.places.items()}
    everywhere = places.starts(question, slots)
    for missing in (None, MISSING):
        while True:
            build = built(question, everywhere, missing=missing)
            enough = max(search.bound, nights.cost)
            found = search.sat(build.rows, most=most, good_enough=enough)
            if not found.values:
                break
            best = Chosen(places=build.placed(found.values), cost=found.cost)
            if fits(question, best):
                if not best.lacks(question):
                    search.found(best.cost)
                return best
    raise NoPlanYet


def _whole(question: Question, search: Search, best: Chosen) -> Chosen | None:
    """Return the best starts of all, nights left open, from those that were found."""
    begin = None if best.lacks(question) else best
    while True:
        everywhere = places.starts(question)
        ask = Ask(places=everywhere, most=search.left / 2, begin=begin)
        found = chosen(question, search, ask)
        if found is None:
            return None
        if fits(question, found):
            search.found(found.cost)
            return found
