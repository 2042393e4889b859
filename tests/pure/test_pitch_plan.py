from dataclasses import replace
from typing import Any

import pytest

from wholeball.kernel.units import NONE, Tenths, tenths
from wholeball.pitch.example import laws_in_metres, laws_in_yards
from wholeball.pitch.markings import markings
from wholeball.pitch.plan import FieldPlan, ImpossibleField, contradictions

LAWS = laws_in_metres()


def changed(changes: dict[str, int]) -> FieldPlan:
    """Return the plan with other sizes; "distances.corner" is one of its distances."""
    sizes = {key: Tenths(value) for key, value in changes.items()}
    kept = {key.removeprefix("distances."): sizes.pop(key) for key in changes if "." in key}
    plan = replace(LAWS, distances=replace(LAWS.distances, **kept))
    others: dict[str, Any] = dict(sizes)
    return replace(plan, **others)


def keys_of_faults(**changes: int) -> list[tuple[str, ...]]:
    with pytest.raises(ImpossibleField) as refused:
        changed(changes)
    return [each.keys for each in refused.value.contradictions]


def keys_of_doubts(**changes: int) -> list[tuple[str, ...]]:
    found = contradictions(changed(changes))
    assert {each.level for each in found} <= {"doubt"}
    return [each.keys for each in found]


@pytest.mark.parametrize("plan", [LAWS, laws_in_yards()])
def test_the_fields_of_the_laws_contradict_nothing(plan: FieldPlan) -> None:
    assert contradictions(plan) == ()


def test_a_field_needs_no_areas_marks_arcs_or_circles() -> None:
    plan = FieldPlan(
        length=tenths(30, "m"),
        width=tenths(20, "m"),
        line_width=tenths(8, "cm"),
        goal_width=tenths(3, "m"),
        goal_height=tenths(2, "m"),
        post_width=tenths(8, "cm"),
        distances=replace(LAWS.distances, free_kick=tenths(5, "m")),
    )
    assert contradictions(plan) == ()
    assert "No goal areas." in markings(plan, "m")
    assert "No penalty arcs." in markings(plan, "m")


@pytest.mark.parametrize("key", ["length", "width", "line_width", "goal_width", "goal_height"])
def test_a_size_of_one_is_read_and_of_zero_is_not(key: str) -> None:
    assert (key,) in keys_of_faults(**{key: 0})


def test_a_marking_below_zero_is_refused() -> None:
    assert ("corner_radius",) in keys_of_faults(corner_radius=-1)


def test_a_free_kick_may_ask_for_no_distance() -> None:
    plan = replace(LAWS, distances=replace(LAWS.distances, free_kick=NONE))
    assert contradictions(plan) == ()
    assert markings(plan, "m")[-6:] == (
        "Opponents keep 9.15 m from the ball at kick-off.",
        "Opponents keep no distance from the ball at a free kick.",
        "Opponents keep 9.15 m from the corner arc at a corner kick.",
        "Opponents keep 2 m from where a throw-in is taken.",
        "Other players keep 9.15 m from the penalty mark at a penalty kick.",
        "Other players keep 4 m from a dropped ball.",
    )


def test_no_distance_is_below_nought() -> None:
    assert keys_of_faults(**{"distances.throw_in": -1}) == [("distances.throw_in",)]


@pytest.mark.parametrize("key", ["length", "width", "goal_width"])
def test_what_has_no_exact_half_is_refused(key: str) -> None:
    assert keys_of_faults(**{key: getattr(LAWS, key) + 1}) == [(key,)]


def test_every_fault_is_named_at_once_with_both_values() -> None:
    with pytest.raises(ImpossibleField) as refused:
        replace(LAWS, goal_area_depth=tenths(17, "m"), corner_radius=tenths(35, "m"))
    assert str(refused.value) == (
        "goal_area_depth 17 m and penalty_area_depth 16.5 m put the goal area outside the "
        "penalty area. Make the goal area smaller. "
        "corner_radius 35 m and width 68 m make the circle wider than the field. "
        "Make the radius smaller. No field was laid out."
    )
    assert refused.value.code == "impossible_field"


def test_a_goal_area_may_be_as_deep_as_the_penalty_area_and_no_deeper() -> None:
    assert keys_of_doubts(goal_area_depth=165_000) == []
    assert keys_of_faults(goal_area_depth=165_001) == [
        ("goal_area_depth", "penalty_area_depth")
    ]


def test_an_area_may_reach_the_touchline_and_not_beyond() -> None:
    widest = (LAWS.width - LAWS.goal_width) // 2
    assert keys_of_doubts(penalty_area_side=widest) == []
    assert keys_of_faults(penalty_area_side=widest + 1) == [("penalty_area_side", "width")]


def test_an_area_may_come_up_to_the_halfway_line_and_not_touch_it() -> None:
    deepest = (LAWS.length - LAWS.line_width) // 2 - 1
    free = {"penalty_arc_radius": 0}
    assert keys_of_doubts(penalty_area_depth=deepest, **free) == []
    assert keys_of_faults(penalty_area_depth=deepest + 1, **free) == [
        ("penalty_area_depth", "length")
    ]


def test_half_an_area_is_refused() -> None:
    assert keys_of_faults(goal_area_side=0) == [("goal_area_depth", "goal_area_side")]


def test_a_goal_and_its_posts_may_fill_the_goal_line_and_no_more() -> None:
    bare = replace(
        LAWS,
        goal_area_depth=NONE,
        goal_area_side=NONE,
        penalty_area_depth=NONE,
        penalty_area_side=NONE,
        penalty_arc_radius=NONE,
    )
    widest = LAWS.width - 2 * LAWS.post_width
    assert contradictions(replace(bare, goal_width=Tenths(widest))) == ()
    with pytest.raises(ImpossibleField, match="leave no room for the goal"):
        replace(bare, goal_width=Tenths(widest + 2))


def test_a_penalty_mark_on_the_line_of_the_area_is_fine_and_outside_is_doubted() -> None:
    assert keys_of_doubts(penalty_mark=165_000) == []
    assert keys_of_doubts(penalty_mark=165_001) == [("penalty_mark", "penalty_area_depth")]


def test_a_penalty_mark_on_the_halfway_line_is_refused() -> None:
    assert ("penalty_mark", "length") in keys_of_faults(
        penalty_mark=LAWS.length // 2, penalty_arc_radius=0
    )


def test_an_arc_needs_a_mark_and_an_area() -> None:
    found = keys_of_faults(penalty_mark=0, penalty_area_depth=0, penalty_area_side=0)
    assert ("penalty_arc_radius", "penalty_mark") in found
    assert ("penalty_arc_radius", "penalty_area_depth") in found


@pytest.mark.parametrize("mark", [110_000, 220_000])
def test_an_arc_must_pass_the_line_of_the_area(mark: int) -> None:
    passing = replace(LAWS, penalty_mark=Tenths(mark), penalty_arc_radius=Tenths(55_001))
    assert {each.level for each in contradictions(passing)} == {"doubt"}
    assert keys_of_faults(penalty_mark=mark, penalty_arc_radius=55_000) == [
        ("penalty_arc_radius", "penalty_area_depth")
    ]


def test_an_arc_may_be_as_wide_as_the_penalty_area_and_no_wider() -> None:
    level = {"penalty_mark": LAWS.penalty_area_depth}
    half = LAWS.goal_width // 2 + LAWS.penalty_area_side
    assert ("penalty_arc_radius", "penalty_area_side") not in keys_of_doubts(
        penalty_arc_radius=half, **level
    )
    assert keys_of_faults(penalty_arc_radius=half + 1, **level) == [
        ("penalty_arc_radius", "penalty_area_side")
    ]


def test_an_arc_may_meet_the_area_in_its_corners_and_not_outside_them() -> None:
    narrow = {"goal_area_side": 36_400, "penalty_area_side": 36_400}
    side = ("penalty_arc_radius", "penalty_area_side")
    assert 91_400**2 < 73_000**2 + 55_000**2 < 91_401**2
    assert side not in keys_of_doubts(penalty_arc_radius=91_400, **narrow)
    assert keys_of_faults(penalty_arc_radius=91_401, **narrow) == [side]


def test_a_centre_circle_may_touch_both_touchlines_and_not_cross_them() -> None:
    circle = ("centre_circle_radius", "distances.kick_off")
    assert keys_of_doubts(centre_circle_radius=LAWS.width // 2) == [circle]
    assert keys_of_faults(centre_circle_radius=LAWS.width // 2 + 1) == [
        ("centre_circle_radius", "width")
    ]


def test_a_circle_that_shows_another_distance_than_opponents_keep_is_doubted() -> None:
    assert keys_of_doubts(**{"distances.kick_off": 91_499}) == [
        ("centre_circle_radius", "distances.kick_off")
    ]
    assert keys_of_doubts(**{"distances.penalty": 91_499}) == [
        ("penalty_arc_radius", "distances.penalty")
    ]
    rest = ("free_kick", "corner", "throw_in", "dropped_ball")
    assert keys_of_doubts(**{f"distances.{name}": 91_499 for name in rest}) == []


def test_a_field_as_wide_as_long_is_doubted() -> None:
    assert keys_of_doubts(length=LAWS.width) == [("length", "width")]
    assert keys_of_doubts(length=LAWS.width + 2) == []


def test_lines_of_5_inches_are_fine_and_wider_ones_are_doubted() -> None:
    assert keys_of_doubts(line_width=1_270, post_width=1_270) == []
    assert keys_of_doubts(line_width=1_271, post_width=1_271) == [
        ("line_width",),
        ("post_width",),
    ]


def test_posts_of_another_width_than_the_lines_are_doubted() -> None:
    assert keys_of_doubts(post_width=1_000) == [("line_width", "post_width")]


def test_every_marking_is_listed_in_words_with_its_size() -> None:
    assert markings(laws_in_yards(), "yd") == (
        "Field 110 yd long and 70 yd wide.",
        "Lines 5 in wide, with a halfway line and a centre mark.",
        "Goals 8 yd wide and 8 ft high inside, posts 5 in wide.",
        "Goal areas 6 yd deep and 20 yd wide, from 6 yd outside each post.",
        "Penalty areas 18 yd deep and 44 yd wide, from 18 yd outside each post.",
        "Penalty marks 12 yd from the goal line.",
        "Penalty arcs 10 yd from the penalty mark.",
        "Centre circle 10 yd from the centre mark.",
        "Corner arcs 1 yd from the corner.",
        "Opponents keep 10 yd from the ball at kick-off.",
        "Opponents keep 10 yd from the ball at a free kick.",
        "Opponents keep 10 yd from the corner arc at a corner kick.",
        "Opponents keep 2 yd from where a throw-in is taken.",
        "Other players keep 10 yd from the penalty mark at a penalty kick.",
        "Other players keep 4.5 yd from a dropped ball.",
    )
