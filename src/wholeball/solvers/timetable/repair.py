"""Mends a timetable that people have read: as few games as can be move, and not far.

A game that is to be played within 72 hours is dearest to move; then the number of games that
move counts, then how far; wishes come last. What does not move keeps its field.
"""

from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from wholeball.kernel.identity import GameId
from wholeball.planning.answer import Impossible, Plan
from wholeball.planning.difference import Moved, difference
from wholeball.planning.problem import Placement, TimetableProblem
from wholeball.solvers.timetable import fields
from wholeball.solvers.timetable import plan as planning
from wholeball.solvers.timetable.bound import UNLIMITED, bound
from wholeball.solvers.timetable.budget import Budget, OnProgress, Stop
from wholeball.solvers.timetable.changes import Change, changed
from wholeball.solvers.timetable.explain import explained
from wholeball.solvers.timetable.parts import asked
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.search import Search

SOON: Final = timedelta(hours=72)
"""How long before its start a game's move is dearest."""
TIER: Final = 1_000
"""How much more each thing weighs than the one after it."""
MOVES: Final = 10 * TIER
"""What a game that moves costs; further adds a tenth a step, from its night, from its week.

A game whose field is lost moves even where it keeps its start; another start is a step then.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repaired:
    """A mended timetable, the question that it answers, and what moves.

    `is_least` tells whether it is proven that less cannot move, as it is weighed here.
    """

    problem: TimetableProblem
    plan: Plan
    moved: tuple[Moved, ...]
    is_least: bool


def repair(
    problem: TimetableProblem,
    changes: Iterable[Change],
    budget: Budget,
    *,
    now: datetime,
    on_progress: OnProgress | None = None,
    stop: Stop | None = None,
) -> Repaired | Impossible:
    """Return the timetable that moves least after some changes, or why there is none.

    Raises:
        NoPlanYet: the budget ended before one was found or proven to be impossible.
    """
    search = Search(budget, on_progress, stop)
    left = changed(problem, changes, now=now)
    question = asked(left)
    moves = _moves(question, left.announced, now)
    question.charge(moves)
    search.proves(_forced(question, moves))
    with ThreadPoolExecutor(max_workers=1) as beside:
        limit = search.left if search.is_by_clock else UNLIMITED
        least = beside.submit(bound, left, seconds=limit)
        best = planning.best(question, search)
    if best is None:
        can_be = planning.can_be if len(question.free) <= planning.WHOLE else None
        return explained(left, can_be)
    kept = {
        one.game: one.field
        for one in left.announced
        if best.places.get(one.game) == question.number.get(one.start)
    }
    placements = fields.placements(question, best.places, search, kept=kept)
    plan = planning.checked(left, placements, least.result())
    return Repaired(
        problem=left,
        plan=plan,
        moved=difference(left.announced, plan.placements),
        is_least=best.cost // TIER <= search.bound // TIER,
    )


def _moves(
    question: Question, announced: Iterable[Placement], now: datetime
) -> Mapping[GameId, tuple[tuple[int, int], ...]]:
    """Return what the slots cost each game that has been announced, by how far they are."""
    return {
        one.game: tuple(_away(question, one, now))
        for one in announced
        if one.game in question.problem.by_game
    }


def _forced(question: Question, moves: Mapping[GameId, tuple[tuple[int, int], ...]]) -> int:
    """Return what games cost at least that cannot stay, whatever else moves."""
    return sum(
        cost
        for game, charged in moves.items()
        for away, cost in charged
        if not question.free[game] & ~away
    )


def _away(question: Question, one: Placement, now: datetime) -> Iterator[tuple[int, int]]:
    begins = datetime.combine(one.start.night, one.start.at)
    weight = TIER if now <= begins <= now + SOON else 1
    week = question.problem.week_of(one.start.night)
    stays = [question.number[one.start]] if one.start in question.number else []
    is_open = (one.start, one.field) in question.problem.slot_at
    places = (
        (stays if is_open else [], MOVES),
        (stays, 0 if is_open else TIER),
        (question.nights.get(one.start.night, ()), TIER),
        (question.weeks.get(week, ()), TIER),
    )
    every = (1 << len(question.slots)) - 1
    for starts, cost in places:
        here = sum(question.masks[start] for start in starts)
        if cost:
            yield every & ~here, cost * weight
