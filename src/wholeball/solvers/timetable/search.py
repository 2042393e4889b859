"""Keeps a search within its budget, tells how it goes, and stops it when asked to."""

from collections.abc import Mapping
from math import ceil
from threading import Event
from time import monotonic
from typing import Final

from wholeball.solvers.timetable import highs, sat
from wholeball.solvers.timetable.budget import Budget, OnProgress, Progress, Stop
from wholeball.solvers.timetable.highs import Whole
from wholeball.solvers.timetable.rows import Rows
from wholeball.solvers.timetable.sat import Answer, Limits

STEPS: Final = 10_000
"""How many steps of HiGHS are counted as a unit of work."""


class Search:
    """A search under way: what it may still spend, its best cost and what is proven."""

    def __init__(
        self, budget: Budget, on_progress: OnProgress | None = None, stop: Stop | None = None
    ) -> None:
        self.budget = budget
        self.best: int | None = None
        self.bound = float("-inf")
        self._on_progress, self._stop = on_progress, stop
        self._began, self._work, self._more = monotonic(), 0.0, 0.0
        self.has_plan = Event()

    @property
    def seconds(self) -> float:
        """How long it has taken."""
        return monotonic() - self._began

    @property
    def left(self) -> float:
        """What is left of the budget: seconds, or work where that is its measure."""
        if self.budget.work is not None:
            return self.budget.work - self._work + self._more
        return self.budget.seconds - self.seconds + self._more

    @property
    def is_spent(self) -> bool:
        """Whether nothing is left, or it was stopped."""
        return self.left <= 0 or self.is_stopped

    @property
    def is_over(self) -> bool:
        """Whether it is to end: nothing is left, it was stopped, or nothing can be better."""
        return self.is_spent or self.is_best

    @property
    def is_stopped(self) -> bool:
        """Whether somebody asked it to stop."""
        return self._stop is not None and self._stop()

    @property
    def is_best(self) -> bool:
        """Whether the best plan costs no more than any plan must."""
        return self.best is not None and self.best <= self.bound

    @property
    def is_by_clock(self) -> bool:
        """Whether it is measured by the clock, not by work."""
        return self.budget.work is None

    def proves(self, cost: float) -> None:
        """Note that every plan costs so much at least; costs are whole numbers."""
        if cost > float("-inf"):
            self.bound = max(self.bound, cost if cost == float("inf") else ceil(cost - 1e-6))

    def found(self, cost: int) -> None:
        """Note a plan that can be handed on, and tell of it where it is the best."""
        if self.best is None or cost < self.best:
            self.best = cost
            self.has_plan.set()
            self.tell()

    def lengthen(self, least: float) -> None:
        """Let it go on for so much at least, whatever is spent."""
        self._more += max(0.0, least - self.left)

    def spends(self, work: float) -> None:
        """Note that so much of CP-SAT's work was done."""
        self._work += work

    def costs(self, total: int) -> None:
        """Note what the plan costs in truth, fields and all, and tell of it."""
        self.best = total
        self.tell()

    def tell(self) -> None:
        """Tell how it goes."""
        if self._on_progress is not None:
            progress = Progress(
                best=self.best, bound=self.bound, seconds=self.seconds, left=max(0.0, self.left)
            )
            self._on_progress(progress)

    def whole(self, rows: Rows, *, most: float, good_enough: float) -> Whole | None:
        """Return HiGHS' answer within so many seconds, or first nodes; see `highs.whole`."""
        found = highs.whole(
            rows,
            seconds=most if self.is_by_clock else None,
            good_enough=max(0.0, good_enough),
        )
        if found is not None:
            self._work += found.steps / STEPS
        return found

    def sat(
        self,
        rows: Rows,
        *,
        most: float = 1e9,
        hint: Mapping[int, int] | None = None,
        good_enough: float = float("-inf"),
        soon: float = sat.ENOUGH,
    ) -> Answer:
        """Return CP-SAT's answer within `most` of what is left; see `sat.solved`.

        After `soon` any answer is good enough: seconds by the clock; else it ends the search.
        """
        if not self.is_by_clock:
            most = min(most, soon)
        most = max(0.01, min(most, self.left))
        limits = Limits(
            seed=self.budget.seed,
            good_enough=good_enough,
            soon=soon if self.is_by_clock else sat.ENOUGH,
            workers=self.budget.workers if self.is_by_clock else 1,
            seconds=most if self.is_by_clock else sat.ENOUGH,
            work=sat.ENOUGH if self.is_by_clock else most,
        )
        answer = sat.solved(rows, limits, hint=hint, stop=self._stop)
        self.spends(answer.work)
        return answer
