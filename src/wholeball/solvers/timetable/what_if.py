"""Asks what a season could bear: how many more teams, and which one thing more would help most.

Each question is solved by itself, in processes of its own.
"""

from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import partial
from multiprocessing import get_context

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.planning.answer import Plan
from wholeball.planning.kinds import KINDS
from wholeball.planning.pairings import pairings
from wholeball.planning.problem import PlannedTeam, TimetableProblem
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.cures import rooms
from wholeball.solvers.timetable.narrow import NoPlanYet
from wholeball.solvers.timetable.plan import can_be, plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Help:
    """One thing more, in words, and what the best plan found with it costs."""

    says: str
    total: int


def more_pools(
    problem: TimetableProblem, *, teams: int, games_each: int, rain: int, workers: int = 2
) -> int:
    """Return how many more pools of so many teams fit, with so many nights in a hundred spare.

    The nights kept for rain are spread over the season. Teams that come are free every night.
    Each number is tried in a process of its own, `workers` at a time, until one does not fit.
    """
    less = with_spare(problem, rain)
    fitting = 0
    with _pool(workers) as pool:
        while True:
            numbers = range(fitting + 1, fitting + 1 + workers)
            tries = [with_pools(less, number, teams, games_each) for number in numbers]
            for fits in pool.map(can_be, tries):
                if not fits:
                    return fitting
                fitting += 1


def with_spare(problem: TimetableProblem, rain: int) -> TimetableProblem:
    """Return a question with so many nights in a hundred kept free, rounded up, spread evenly."""
    nights = sorted({slot.night for slot in problem.slots})
    count = -(-len(nights) * rain // 100)
    spare = frozenset(
        nights[(2 * one + 1) * len(nights) // (2 * count)] for one in range(count)
    )
    return replace(problem, spare=problem.spare | spare)


def with_pools(
    problem: TimetableProblem, pools: int, teams: int, games_each: int
) -> TimetableProblem:
    """Return a question with more pools, whose teams no rule names."""
    members = {
        PoolId(f"new pool {pool}"): [
            TeamId(f"new team {pool}-{team}") for team in range(1, teams + 1)
        ]
        for pool in range(1, pools + 1)
    }
    games = tuple(
        replace(one, game=GameId(f"new {one.game}"))
        for one in pairings(members, games_each=games_each)
    )
    come = tuple(
        PlannedTeam(team=team, pool=pool)
        for pool, several in members.items()
        for team in several
    )
    return replace(problem, teams=(*problem.teams, *come), pairings=(*problem.pairings, *games))


def helps(
    problem: TimetableProblem, *, budget: Budget, most: int = 20, workers: int = 2
) -> tuple[Help, ...]:
    """Return single things that make a plan cheaper, the most helpful first.

    Tried are a field, a start and a night more, and absences that a team would give up, `most`
    of them; only those with which a cheaper plan was found are told.
    """
    tries = [("As it is.", problem), *list(_things(problem))[:most]]
    with _pool(workers) as pool:
        totals = list(pool.map(partial(_total, budget), [one for _, one in tries]))
    as_it_is = totals[0]
    found = [
        Help(says=says, total=total)
        for (says, _), total in zip(tries[1:], totals[1:], strict=True)
        if total is not None and (as_it_is is None or total < as_it_is)
    ]
    return tuple(sorted(found, key=lambda one: (one.total, one.says)))


def _things(problem: TimetableProblem) -> Iterator[tuple[str, TimetableProblem]]:
    for cure, more in rooms(problem):
        yield cure.says, more
    for rule in problem.rules:
        if rule.kind == "absent" and rule.strength == "must" and len(rule.teams) == 1:
            rest = tuple(one for one in problem.rules if one is not rule)
            says = f"{rule.teams[0]} gives up: {KINDS[rule.kind].sentence(rule)}"
            yield says, replace(problem, rules=rest)


def _total(budget: Budget, problem: TimetableProblem) -> int | None:
    try:
        found = plan(problem, budget)
    except NoPlanYet:
        return None
    return found.total if isinstance(found, Plan) else None


def _pool(workers: int) -> ProcessPoolExecutor:
    return ProcessPoolExecutor(max_workers=workers, mp_context=get_context("spawn"))
