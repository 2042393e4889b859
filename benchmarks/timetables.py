"""Plans, mends and explains invented seasons, and prints each figure beside what it may be.

Seconds are those of the clock on a machine that may be busy; CPU seconds stand beside them.
`python -m benchmarks.timetables S M` runs some sizes, and `growth` the growth with games.
"""

import resource
import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, time
from functools import partial
from math import log
from statistics import median
from time import perf_counter, process_time
from typing import TypeVar

from benchmarks.instances import SIZES, scaled, season
from wholeball.planning.answer import Impossible, Plan
from wholeball.planning.problem import TimetableProblem
from wholeball.solvers.timetable.budget import Budget, Progress
from wholeball.solvers.timetable.changes import LostNight
from wholeball.solvers.timetable.explain import explained
from wholeball.solvers.timetable.greedy import by_hand
from wholeball.solvers.timetable.plan import plan
from wholeball.solvers.timetable.repair import Repaired, repair

NEVER = float("inf")
_Found = TypeVar("_Found")


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """What a size must reach: seconds, gaps after seconds, and megabytes."""

    seeds: tuple[int, ...]
    first: float
    gaps: tuple[tuple[float, float], ...]
    repair: float
    explain: float
    memory: float


GOALS = {
    "S": Goal(
        seeds=(1, 2, 3), first=0.5, gaps=((10, 0.0),), repair=1.0, explain=0.3, memory=250
    ),
    "M": Goal(
        seeds=(1, 2, 3),
        first=2.0,
        gaps=((10, 0.01), (60, 0.0)),
        repair=2.0,
        explain=0.5,
        memory=350,
    ),
    "L": Goal(
        seeds=(1,),
        first=40.0,
        gaps=((60, 0.04), (300, 0.02)),
        repair=15.0,
        explain=10.0,
        memory=800,
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One plan and how it came about."""

    problem: TimetableProblem
    plan: Plan
    told: tuple[Progress, ...]

    @property
    def first(self) -> float:
        """The seconds to the first plan."""
        return self.told[0].seconds

    def gap(self, seconds: float) -> float:
        """The distance to the final bound of the best plan after so many seconds."""
        best = [
            one.best for one in self.told if one.seconds <= seconds and one.best is not None
        ]
        return (min(best) - self.plan.bound) / max(1, min(best)) if best else NEVER


def run(problem: TimetableProblem, seconds: float) -> Run:
    """Plan within a time, and keep what was told on the way."""
    told: list[Progress] = []
    found = plan(problem, Budget(seconds=seconds), on_progress=told.append)
    if isinstance(found, Impossible):
        raise ValueError(f"an invented season has no plan: {found.reasons}")  # noqa: TRY004
    return Run(problem=problem, plan=found, told=tuple(told))


def line(what: str, value: float, at_most: float, unit: str = "s") -> bool:
    """Print a figure beside what it may be; tell whether it is within."""
    is_within = value <= at_most
    print(f"  {what}: {value:.3g} {unit} ({'within' if is_within else 'ABOVE'} {at_most:g})")
    return is_within


def timed(what: Callable[[], _Found]) -> tuple[_Found, float, float]:
    """Return what a call gives, its seconds by the clock and its CPU seconds."""
    clock, cpu = perf_counter(), process_time()
    found = what()
    return found, perf_counter() - clock, process_time() - cpu


def of_size(name: str) -> bool:
    """Measure one size; tell whether everything is within."""
    goal = GOALS[name]
    longest = goal.gaps[-1][0]
    print(f"{name}:")
    runs = []
    for seed in goal.seeds:
        one, clock, cpu = timed(partial(run, season(SIZES[name], seed), longest))
        runs.append(one)
        hand = by_hand(one.problem)
        print(
            f"  seed {seed}: cost {one.plan.total}, bound {one.plan.bound:g}, "
            f"{one.plan.proof}, {clock:.1f} s, {cpu:.1f} CPU s; by hand {hand.total} with "
            f"{len(hand.unplaced)} unplaced"
        )
        if one.plan.total > hand.total:
            print("  ABOVE the plan by hand")
    fine = [line("first plan", median(one.first for one in runs), goal.first)]
    for seconds, gap in goal.gaps:
        at = median(one.gap(seconds) for one in runs)
        fine.append(line(f"gap after {seconds:g} s", 100 * at, 100 * gap, "%"))
    fine += [_repaired(goal, runs), _explained(goal, runs)]
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    fine.append(line("memory of all so far", memory, goal.memory, "MB"))
    return all(fine)


def _repaired(goal: Goal, runs: list[Run]) -> bool:
    seconds = []
    for one in runs:
        nights = sorted({placed.start.night for placed in one.plan.placements})
        lost = nights[len(nights) // 2]
        announced = replace(one.problem, announced=one.plan.placements)
        now = datetime.combine(lost, time(8))
        budget = Budget(seconds=min(10.0, 4 * goal.repair))
        found, clock, cpu = timed(
            partial(repair, announced, [LostNight(night=lost)], budget, now=now)
        )
        seconds.append(clock)
        if isinstance(found, Repaired):
            games = sum(placed.start.night == lost for placed in one.plan.placements)
            proof = "proven least" if found.is_least else "not proven"
            says = f"{games} games lost, {len(found.moved)} moved, {proof}"
        else:
            says = "none, with the reason why not"
        print(f"  repair of one lost night: {says}, {clock:.1f} s, {cpu:.1f} CPU s")
    return line("repair", median(seconds), goal.repair)


def _explained(goal: Goal, runs: list[Run]) -> bool:
    seconds = []
    for one in runs:
        games = len(one.problem.pairings)
        small = replace(one.problem, slots=one.problem.slots[: 4 * games // 5])
        found, clock, _ = timed(partial(explained, small))
        seconds.append(clock)
        shortage = found.reasons[0].shortage
        if shortage != games - 4 * games // 5:
            print(f"  WRONG shortage: {shortage}")
            return False
    return line("explanation of a season a quarter too large", median(seconds), goal.explain)


def growth() -> bool:
    """Measure how the seconds to a gap of 5 % grow with games; the exponent by least squares."""
    points = []
    for games in (60, 120, 240, 480, 960, 1920, 3000):
        one = run(season(scaled(games), 1), max(20.0, games / 10))
        within = [
            told.seconds
            for told in one.told
            if told.best is not None and told.best - one.plan.bound <= 0.05 * max(1, told.best)
        ]
        seconds = within[0] if within else NEVER
        print(f"  {len(one.problem.pairings)} games: 5 % after {seconds:.3g} s")
        if within:
            points.append((log(len(one.problem.pairings)), log(seconds)))
    middle_x = sum(x for x, _ in points) / len(points)
    middle_y = sum(y for _, y in points) / len(points)
    slope = sum((x - middle_x) * (y - middle_y) for x, y in points)
    return line("exponent", slope / sum((x - middle_x) ** 2 for x, _ in points), 1.5, "")


def main(names: list[str]) -> int:
    """Measure the sizes named, or all and the growth; the status is 1 where one is above."""
    wanted = names or [*GOALS, "growth"]
    fine = [growth() if name == "growth" else of_size(name) for name in wanted]
    return int(not all(fine))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
