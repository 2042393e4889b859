"""Mends tiny timetables of every kind of rule, and holds what moves against trying everything."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from random import Random
from typing import Final

import pytest

from cases.tiny_questions import TEAMS, drawn, every_plan
from cases.tiny_season import MONDAY, night
from wholeball.kernel.identity import TeamId
from wholeball.planning.answer import Impossible
from wholeball.planning.problem import Placement, TimetableProblem
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.changes import Change, LostField, LostNight, Withdrawn, changed
from wholeball.solvers.timetable.repair import Repaired, repair

MORNING: Final = time(8)


def lost(draws: Random, announced: tuple[Placement, ...]) -> Change:
    """Lose a night on which there is a game, or its field, or a team."""
    one = draws.choice(announced)
    which = draws.random()
    if which < 0.3:
        return Withdrawn(team=TeamId(draws.choice(TEAMS)))
    if which < 0.6:
        return LostNight(night=one.start.night)
    return LostField(field=one.field, night=draws.choice((one.start.night, None)))


def away(
    announced: Iterable[Placement], plan: Iterable[Placement], *, first: date, now: datetime
) -> int:
    """Return what moves, by the words of the reference: 10 a game, 1 from its night, its week."""
    here = {one.game: one.start for one in plan}
    total = 0
    for one in (game for game in announced if game.game in here):
        was, now_at = one.start, here[one.game]
        moved = 10 * (now_at != was) + (now_at.night != was.night)
        moved += (now_at.night - first).days // 7 != (was.night - first).days // 7
        is_soon = now <= datetime.combine(was.night, was.at) <= now + timedelta(hours=72)
        total += moved * (1_000 if is_soon else 1)
    return total


def asked(seed: int) -> tuple[TimetableProblem, Change, datetime]:
    """Return a timetable that people have read, what is lost of it, and when."""
    draws = Random(seed)
    problem = drawn(draws)
    while not (plans := [plan for plan, _ in every_plan(problem)]):
        problem = drawn(draws)
    announced = draws.choice(plans)
    now = datetime.combine(night(draws.randint(-5, 3)), MORNING)
    return replace(problem, announced=announced), lost(draws, announced), now


@pytest.mark.parametrize("seed", range(60))
def test_a_repair_moves_as_little_as_trying_everything_does_and_says_that_it_is_proven(
    seed: int,
) -> None:
    problem, change, now = asked(seed)
    found = repair(problem, (change,), Budget(work=2.0), now=now)
    left = changed(problem, (change,), now=now)
    stays = {lock.game: lock.start for lock in left.locks if lock.why == "played"}
    costs = [
        away(problem.announced, plan, first=MONDAY, now=now)
        for plan, _ in every_plan(left)
        if all(one.start == stays.get(one.game, one.start) for one in plan)
    ]
    if isinstance(found, Impossible):
        assert costs == []
        return
    assert isinstance(found, Repaired)
    cost = away(problem.announced, found.plan.placements, first=MONDAY, now=now)
    assert (cost, found.is_least) == (min(costs), True)
