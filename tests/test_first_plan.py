"""What a season that has just begun plans by gives a timetable that a coordinator can publish.

That every team plays each week until its games are done, and a night has no empty start before
a later one, is common practice, no source.
"""

from collections import Counter
from datetime import date, time
from typing import Final

import pytest

from cases.kept_texts import KeptTexts
from wholeball.files.folder import read_folder
from wholeball.files.problem import problem_of
from wholeball.planning.answer import Plan
from wholeball.planning.check import check
from wholeball.planning.problem import TimetableProblem
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.plan import plan
from wholeball.usecases.arrange_pools import spread_teams
from wholeball.usecases.set_times import NewTime, add_times
from wholeball.usecases.start_season import start_season
from wholeball.usecases.take_teams import take_teams

FIRST_DAY: Final = date(2026, 11, 24)


def begun(teams: int, pools: int, *days: str) -> TimetableProblem:
    """Return the question of a season that has just begun, with two fields and four starts."""
    kept = KeptTexts(place="here", texts={})
    start_season(kept, preset="seven", timezone="America/New_York", first_day=FIRST_DAY)
    names = "\n".join(f"Team {number}" for number in range(1, teams + 1))
    take_teams(kept, f"team\n{names}\n".encode(), file="teams.csv")
    spread_teams(kept, pools)
    for one in days:
        new = NewTime(
            fields=("North", "South"), weekday=one, opens=time(18), closes=time(21, 30)
        )
        add_times(kept, new)
    return problem_of(read_folder(kept), as_planned=True)


@pytest.mark.parametrize(
    ("teams", "pools", "days", "nights", "starts"),
    [
        (14, 2, ("thursday",), 7, 21),
        (12, 2, ("tuesday",), 5, 15),
        (24, 4, ("thursday",), 8, 30),
        (14, 2, ("tuesday", "thursday"), 7, 21),
    ],
)
def test_the_first_plan_is_proven_and_has_no_week_off_and_no_gap(
    teams: int, pools: int, days: tuple[str, ...], nights: int, starts: int
) -> None:
    problem = begun(teams, pools, *days)
    found = plan(problem, Budget(seconds=60))
    assert isinstance(found, Plan)
    report = check(problem, found.placements)
    assert report.broken == ()
    assert {one.rule for one in report.lines} == {"few starts"}
    assert (report.total, found.bound) == (starts, starts)
    used = Counter(one.start for one in found.placements)
    weeks = sorted({problem.week_of(start.night) for start in used})
    assert weeks == list(range(nights))
    for night in {start.night for start in used}:
        free = sorted(start for start in problem.starts if start.night == night)
        assert [start in used for start in free] == sorted(
            (one in used for one in free), reverse=True
        )
