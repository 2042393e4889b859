"""Counts by how much rules must give way, against trying every placement of tiny questions."""

from dataclasses import replace
from random import Random

import pytest

from cases.tiny_questions import drawn, tried
from cases.tiny_season import EARLY, LATE, night, pairing, question, rule, slots
from wholeball.planning.answer import Reason
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import Pairing, Slot, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.solvers.timetable.elastic import giving_way
from wholeball.solvers.timetable.explain import explained
from wholeball.solvers.timetable.parts import PARTS

ONE = (pairing("1", "Ash", "Birch"),)
TWO = (pairing("1", "Ash", "Birch"), pairing("2", "Ash", "Cedar", 2))
APART = (pairing("1", "Ash", "Birch"), pairing("2", "Cedar", "Dogwood"))
REPEAT = (pairing("1", "Ash", "Birch"), pairing("2", "Birch", "Ash", 2))


def musts(problem: TimetableProblem) -> TimetableProblem:
    return replace(problem, rules=tuple(one for one in problem.rules if one.strength == "must"))


def loosened(problem: TimetableProblem) -> TimetableProblem:
    """Charge one a break, without asking the parts how."""
    return replace(
        problem,
        rules=tuple(
            replace(one, strength="wish", cost=1)
            if "wish" in KINDS[one.kind].strengths
            else one
            for one in problem.rules
        ),
    )


def test_every_must_that_can_also_be_a_wish_can_give_way() -> None:
    both = {name for name, kind in KINDS.items() if {*kind.strengths} == {"must", "wish"}}
    assert {kind for kind, part in PARTS.items() if part.elastic is not None} == both


@pytest.mark.parametrize("seed", range(60))
def test_as_many_breaks_are_counted_as_trying_everything_finds(seed: int) -> None:
    problem = musts(drawn(Random(seed)))
    expected = tried(loosened(problem))
    found = giving_way(problem)
    if expected is None:
        assert found is None
        return
    assert found is not None
    assert (found.total, found.least) == (expected, expected)
    if tried(problem) is not None:
        assert found.total == 0


@pytest.mark.parametrize(
    ("games", "few", "enough", "must"),
    [
        pytest.param(
            TWO,
            slots((0,), (EARLY, LATE)),
            slots((0, 1), (EARLY,)),
            rule("games_a_night", most=1),
            id="games_a_night",
        ),
        pytest.param(
            TWO,
            slots((0, 1), (EARLY,)),
            slots((0, 7), (EARLY,)),
            rule("games_a_week", most=1),
            id="games_a_week",
        ),
        pytest.param(
            TWO,
            slots((0, 2), (EARLY,)),
            slots((0, 3), (EARLY,)),
            rule("games_in_days", most=1, days=3),
            id="games_in_days",
        ),
        pytest.param(
            TWO,
            slots((0, 1), (EARLY,)),
            slots((0, 2), (EARLY,)),
            rule("rest_days", days=1),
            id="rest_days",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,)),
            slots((1,), (EARLY,)),
            rule("games_on", "Ash", most=0, nights=(f"{night(0)}",), side="any"),
            id="games_on",
        ),
        pytest.param(
            APART,
            slots((0,), (EARLY,)),
            slots((0,), (EARLY, LATE)),
            rule("never_at_once", "Ash", "Cedar"),
            id="never_at_once",
        ),
        pytest.param(
            REPEAT,
            slots((0, 1), (EARLY,)),
            slots((0, 2), (EARLY,)),
            rule("gap_between_repeats", days=2),
            id="gap_between_repeats",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,)),
            slots((0,), (LATE,)),
            rule("absent", "Ash", weekdays=("monday",), until="19:00"),
            id="absent",
        ),
        pytest.param(
            ONE,
            slots((1,), (EARLY,)),
            slots((0,), (EARLY,)),
            rule("block", "Ash", block="B", weekday="monday", opens="18:00", closes="21:00"),
            id="block",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,)),
            slots((1,), (EARLY,)),
            rule("not_at", names=("1",), nights=(f"{night(0)}",)),
            id="not_at",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,)),
            slots((0,), (LATE,)),
            rule("fixed", name="1", night=f"{night(0)}", at="20:00"),
            id="fixed",
        ),
    ],
)
def test_a_rule_gives_way_once_in_the_first_season_without_a_plan_and_never_in_the_last_with_one(
    games: tuple[Pairing, ...], few: tuple[Slot, ...], enough: tuple[Slot, ...], must: Rule
) -> None:
    without, has_one = question(games, few, must), question(games, enough, must)
    assert (tried(without), tried(has_one)) == (None, 0)
    short, fine = giving_way(without), giving_way(has_one)
    assert short is not None
    assert fine is not None
    assert (short.breaks, short.least) == (((must, 1),), 1)
    assert (fine.breaks, fine.least) == ((), 0)


def test_what_must_give_way_is_told_after_the_clash() -> None:
    never = replace(rule("never_at_once", "Ash", "Cedar"), rule="one player")
    assert explained(question(APART, slots((0,), (EARLY,)), never)).reasons == (
        Reason(
            rules=("one player",),
            says="There is no room for this: Ash and Cedar never play at once.",
        ),
        Reason(
            rules=("one player",),
            says="There would be a timetable with 1 exception, and none with fewer: Ash and "
            "Cedar never play at once (1 time not).",
            shortage=1,
        ),
    )


def test_what_cannot_give_way_is_not_said_to() -> None:
    long = rule("length", minutes=600)
    assert giving_way(question(ONE, slots((0,), (EARLY,)), long)) is None
