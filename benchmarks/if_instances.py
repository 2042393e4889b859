"""Plans the published time-relaxed instances, two minutes each, against the best known values.

Run it with `python -m benchmarks.if_instances [SECONDS]`; the folder of check data is found as
the tests find it. The status is 1 unless ten of sixteen are equal to or better than the best
known, and none is worse by more than a tenth or 3.
"""

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final, NamedTuple

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "tests")]

from external.cases import folder  # noqa: E402 - it stands with the tests
from external.robinx import Instance  # noqa: E402
from wholeball.planning.answer import Plan  # noqa: E402
from wholeball.planning.check import check  # noqa: E402
from wholeball.solvers.timetable.budget import Budget  # noqa: E402
from wholeball.solvers.timetable.narrow import NoPlanYet  # noqa: E402
from wholeball.solvers.timetable.plan import plan  # noqa: E402

SECONDS: Final = 120.0
SHARE: Final = 10 / 16
"""How many of the instances are to be at least as good as the best known."""


class Found(NamedTuple):
    """What became of an instance; `total` is None where no plan was found."""

    name: str
    best_known: int
    total: int | None
    bound: float

    @property
    def is_equal(self) -> bool:
        """Whether it is as good as the best known, or better."""
        return self.total is not None and self.total <= self.best_known

    @property
    def is_near(self) -> bool:
        """Whether it is worse by a tenth or 3 at most."""
        return self.total is not None and self.total <= max(
            self.best_known * 1.1, self.best_known + 3
        )


def solved(seconds: float) -> Iterator[Found]:
    """Plan each instance for which a best value is known; a plan must pass its evaluation."""
    timetables = folder() / "timetables"
    said = json.loads((timetables / "best.json").read_text(encoding="utf-8"))
    for name, best_known in said["best_known"].items():
        problem = Instance(timetables / "if" / f"{name}.xml").problem()
        try:
            found = plan(problem, Budget(seconds=seconds))
        except NoPlanYet:
            found = None
        if not isinstance(found, Plan):
            yield Found(name, best_known, None, 0.0)
            continue
        report = check(problem, found.placements)
        if report.broken or report.total != found.total:
            raise ValueError(f"{name}: the plan does not pass its evaluation")
        yield Found(name, best_known, report.total, found.bound)


def main(seconds: float = SECONDS) -> int:
    """Print a line an instance and what they come to."""
    every = []
    for one in solved(seconds):
        every.append(one)
        told = "no plan" if one.total is None else f"{one.total}, {one.bound:.0f} at least"
        verdict = "equal" if one.is_equal else "near" if one.is_near else "WORSE"
        print(f"{one.name}: {told}, best known {one.best_known} ({verdict})", flush=True)
    equal, near = sum(one.is_equal for one in every), sum(one.is_near for one in every)
    print(f"{equal} of {len(every)} equal or better, {near} near, {seconds:g} s each")
    return int(equal < SHARE * len(every) or near < len(every))


if __name__ == "__main__":
    sys.exit(main(*map(float, sys.argv[1:])))
