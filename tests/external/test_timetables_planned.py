"""A plan of ours for a published instance passes its own evaluation.

Instances: Van Bulck, Goossens and Spieksma 2019; see test_timetables.
"""

import pytest

from external.cases import folder
from external.robinx import Instance
from wholeball.planning.answer import Plan
from wholeball.planning.check import check
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.plan import plan

FILES = sorted((folder() / "timetables" / "if").glob("*.xml"))
if not FILES:
    pytest.skip("no timetables in the folder of check data", allow_module_level=True)


def test_a_plan_of_ours_breaks_nothing_and_is_not_below_what_is_proven() -> None:
    """The instance with the fewest teams, in the mode that is alike on every machine."""
    path = min(FILES, key=lambda one: (len(Instance(one).teams), one.name))
    problem = Instance(path).problem()
    found = plan(problem, Budget(work=4.0))
    assert isinstance(found, Plan)
    report = check(problem, found.placements)
    assert report.broken == ()
    assert report.total == found.total
    assert found.bound <= found.total
