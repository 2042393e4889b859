"""Rounds come in the order of the weeks, and the starts of a night without a gap.

That a league plays round by round, one a week, and leaves no start of a night empty before a
later one is common practice, no source.
"""

import pytest

from cases.four_games import APART, FOUR, PASS, PLACES, asked
from cases.tiny_season import EARLY, LATE, MIDDLE, at, pairing, plan, question, rule, slots
from wholeball.league.fixture import Seeded
from wholeball.planning.answer import Line
from wholeball.planning.check import check
from wholeball.planning.kinds.early import due_weeks

ROUNDS = rule("round_by_round", cost=5)
NO_GAP = rule("no_gap", cost=3)


def test_a_round_is_due_in_its_week_and_each_week_later_costs() -> None:
    usable = slots((0, 7, 14, 21), (EARLY, MIDDLE, LATE))
    problem = question(FOUR, usable, ROUNDS, weeks=4)
    assert check(problem, plan(APART)) == PASS
    early = {**APART, "3": at(0, LATE)}
    assert check(problem, plan(early)) == PASS
    late = {**APART, "2": at(7, LATE), "4": at(21, EARLY)}
    assert check(problem, plan(late)).lines == (
        Line(
            rule="round_by_round",
            about="2",
            times=1,
            cost=5,
            says="Game 2 of round 1 is 1 week after its round.",
        ),
        Line(
            rule="round_by_round",
            about="4",
            times=2,
            cost=10,
            says="Game 4 of round 2 is 2 weeks after its round.",
        ),
    )


@pytest.mark.parametrize(
    ("usable", "due"),
    [
        (slots((0, 7, 14), (EARLY, LATE)), {1: 0, 2: 1}),
        (slots((7, 21), (EARLY, LATE)), {1: 1, 2: 3}),
        (slots((0, 7, 14, 21), (EARLY,)), {1: 0, 2: 1}),
        (slots((0, 7, 14, 21), (EARLY,), ("F1",)), {1: 1, 2: 3}),
        (slots((0, 1), (EARLY, LATE)), {1: 0, 2: 0}),
        ((), {1: 0, 2: 0}),
    ],
    ids=[
        "one a week",
        "weeks without a place",
        "places to the last",
        "half as many places",
        "one week for both",
        "no place",
    ],
)
def test_a_round_is_due_once_there_are_places_for_it(usable: tuple, due: dict) -> None:  # type: ignore[type-arg]
    assert due_weeks(question(FOUR, usable, weeks=4)) == due


def test_a_game_of_the_bracket_is_of_no_round() -> None:
    last = pairing("F", Seeded(seed=1), Seeded(seed=2), 1, pool=None)
    usable = slots((0, 7, 14), (EARLY, MIDDLE))
    problem = question((*FOUR, last), usable, ROUNDS, weeks=3)
    assert check(problem, plan({**APART, "F": at(14, EARLY)})) == PASS


def test_a_start_that_is_empty_before_one_with_games_costs_once() -> None:
    gap = {"1": at(0, EARLY), "2": at(0, LATE), "3": at(7, EARLY), "4": at(7, MIDDLE)}
    assert check(asked(NO_GAP), plan(APART)) == PASS
    assert check(asked(NO_GAP), plan(gap)).lines == (
        Line(
            rule="no_gap",
            about="2027-01-04 19:00",
            times=1,
            cost=3,
            says="Monday 4 January, 19:00 is empty before a later start.",
        ),
    )
    last = {"1": at(0, LATE), "2": at(0, LATE, "F2"), "3": at(7, EARLY), "4": at(8, EARLY)}
    assert check(question(FOUR, PLACES, NO_GAP), plan(last)).total == 2 * 3
