"""Holds how the nights of a large question are chosen, on small ones that are solved whole too."""

import pytest
from benchmarks.instances import SIZES, season

from wholeball.planning.problem import TimetableProblem
from wholeball.solvers.timetable import large, places
from wholeball.solvers.timetable.bound import bound
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.narrow import Ask, Chosen
from wholeball.solvers.timetable.parts import asked
from wholeball.solvers.timetable.rows import Rows
from wholeball.solvers.timetable.sat import Limits, solved
from wholeball.solvers.timetable.search import Search

WORK = 20.0


def by_parts(problem: TimetableProblem) -> tuple[Chosen, list[Chosen]]:
    """Choose nights; with them come those that were told of first."""
    question, told = asked(problem), list[Chosen]()
    ask = Ask(
        places=places.nights(question), most=WORK / 2, by_night=True, on_first=told.append
    )
    found = large.by_parts(question, Search(Budget(work=WORK)), ask)
    assert found is not None
    assert found.places.keys() == question.free.keys()
    return found, told


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_nights_by_parts_come_within_a_fiftieth_of_what_is_proven(seed: int) -> None:
    problem = season(SIZES["S"], seed)
    found, _ = by_parts(problem)
    assert bound(problem) <= found.cost <= bound(problem) * 1.02


def test_the_same_seed_chooses_the_same_nights() -> None:
    problem = season(SIZES["S"], 1)
    assert by_parts(problem) == by_parts(problem)


def test_the_first_nights_are_told_and_never_better_than_the_last() -> None:
    found, told = by_parts(season(SIZES["S"], 2))
    assert [one.cost >= found.cost for one in told] == [True]


def test_a_hint_of_some_columns_is_filled_up_to_an_answer() -> None:
    rows = Rows()
    chosen, over = rows.column(), rows.column(cost=3, top=5)
    rows.at_least([chosen, over], 4, "over")
    answer = solved(rows, Limits(workers=1), hint={chosen: 1})
    assert (answer.status, answer.values, answer.cost) == ("optimal", (1, 3), 9)


def test_a_hint_that_is_no_answer_does_no_harm() -> None:
    rows = Rows()
    one, other = rows.column(cost=1), rows.column(cost=2)
    rows.exactly([one, other], 1, "once")
    answer = solved(rows, Limits(workers=1), hint={one: 1, other: 1})
    assert (answer.status, answer.values, answer.cost) == ("optimal", (1, 0), 1)
