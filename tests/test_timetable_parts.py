"""Holds each kind's part of the model to what the check says of the same placements."""

from dataclasses import replace
from random import Random

import pytest

from cases.tiny_questions import drawn
from wholeball.planning.check import check
from wholeball.planning.problem import Lock, Placement
from wholeball.solvers.timetable import plan as planning
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.parts import asked
from wholeball.solvers.timetable.search import Search


@pytest.mark.parametrize("seed", range(1000, 1400))
def test_the_model_refuses_what_the_check_calls_broken_and_charges_what_it_charges(
    seed: int,
) -> None:
    """Every game is locked at a place drawn by lot, so that the model has nothing to choose.

    What depends on fields alone is charged by the check only.
    """
    draws = Random(seed)
    problem = drawn(draws)
    places = draws.sample(problem.slots, len(problem.pairings))
    placed = tuple(
        Placement(game=game, start=slot.start, field=slot.field)
        for game, slot in zip(problem.by_game, places, strict=True)
    )
    locks = tuple(
        Lock(game=one.game, start=one.start, field=one.field, why="fixed") for one in placed
    )
    report = check(problem, placed)
    found = planning.best(asked(replace(problem, locks=locks)), Search(Budget(work=1.0)))
    if report.broken:
        assert found is None
        return
    assert found is not None
    by_fields = {one.rule for one in problem.rules if one.kind == "even_fields"}
    assert found.cost == sum(one.cost for one in report.lines if one.rule not in by_fields)
