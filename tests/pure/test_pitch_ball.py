from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.units import Tenths, tenths
from wholeball.pitch.areas import Side, turned
from wholeball.pitch.ball import (
    ball_radius,
    is_goal,
    is_out,
    is_over_goal_line,
    is_over_touchline,
    true_radius,
)
from wholeball.pitch.example import laws_in_metres
from wholeball.pitch.shapes import Point, at

PLAN = laws_in_metres()
SMALL = ball_radius(tenths(68, "cm"))
LARGE = ball_radius(tenths(70, "cm"))
EDGE = PLAN.width // 2
POST = PLAN.goal_width // 2


def in_goal(x: int, y: int, *, height: int = 0, end: Side = Side.OWN) -> bool:
    return is_goal(at(x, y), height=Tenths(height), radius=SMALL, plan=PLAN, end=end)


def test_balls_of_68_to_70_cm_have_radii_of_108_to_111_mm() -> None:
    assert true_radius(tenths(68, "cm")) == pytest.approx(1082.2536130)
    assert [ball_radius(tenths(cm, "cm")) for cm in (68, 69, 70)] == [1082, 1098, 1114]


@given(st.integers(1, 10**6), st.integers(0, 10**6))
def test_rounding_the_radius_down_changes_no_answer(circumference: int, beyond: int) -> None:
    exact = true_radius(Tenths(circumference))
    assert (beyond > exact) == (beyond > ball_radius(Tenths(circumference)))


@pytest.mark.parametrize(("radius", "last_in"), [(SMALL, 1082), (LARGE, 1114)])
def test_the_ball_is_out_from_the_first_tenth_beyond_its_radius(
    radius: Tenths, last_in: int
) -> None:
    for beyond, out in ((0, False), (last_in, False), (last_in + 1, True)):
        assert is_over_goal_line(at(0, -beyond), radius, PLAN) is out
        assert is_over_goal_line(at(0, PLAN.length + beyond), radius, PLAN) is out
        assert is_over_touchline(at(EDGE + beyond, 500), radius, PLAN) is out
        assert is_over_touchline(at(-EDGE - beyond, 500), radius, PLAN) is out


@pytest.mark.parametrize(
    ("beyond_cm", "small_is_out", "large_is_out"),
    [("10.8", False, False), ("11", True, False), ("11.2", True, True)],
)
def test_between_10_8_and_11_2_cm_it_depends_on_the_ball(
    beyond_cm: str, *, small_is_out: bool, large_is_out: bool
) -> None:
    centre = at(EDGE + tenths(Decimal(beyond_cm), "cm"), 500_000)
    assert is_out(centre, SMALL, PLAN) is small_is_out
    assert is_out(centre, LARGE, PLAN) is large_is_out


def test_a_wider_line_moves_nothing_because_its_outer_edge_counts() -> None:
    thin = replace(PLAN, line_width=Tenths(500), post_width=Tenths(500))
    for beyond in (1082, 1083):
        centre = at(0, -beyond)
        assert is_out(centre, SMALL, thin) == is_out(centre, SMALL, PLAN)


def test_a_ball_over_both_lines_at_the_corner_is_out_once() -> None:
    assert is_out(at(EDGE + 2_000, -2_000), SMALL, PLAN)
    assert not is_out(at(EDGE + 1_000, -1_000), SMALL, PLAN)


def test_it_is_a_goal_from_the_first_tenth_wholly_over_the_line() -> None:
    assert not in_goal(0, -1082)
    assert in_goal(0, -1083)


def test_it_is_a_goal_inside_the_posts_and_under_the_bar_only() -> None:
    assert in_goal(POST - 1, -1083)
    assert not in_goal(POST, -1083)
    assert in_goal(0, -1083, height=PLAN.goal_height - 1)
    assert not in_goal(0, -1083, height=PLAN.goal_height)


def test_a_ball_in_one_goal_is_not_in_the_other() -> None:
    assert in_goal(0, PLAN.length + 1083, end=Side.OPPONENTS)
    assert not in_goal(0, PLAN.length + 1083, end=Side.OWN)


@given(st.integers(-500_000, 500_000), st.integers(-200_000, 1_300_000))
def test_turning_the_field_changes_no_answer(x: int, y: int) -> None:
    point: Point = at(x, y)
    other = turned(point, PLAN)
    assert is_over_goal_line(point, SMALL, PLAN) == is_over_goal_line(other, SMALL, PLAN)
    assert is_over_touchline(point, SMALL, PLAN) == is_over_touchline(other, SMALL, PLAN)
    assert in_goal(x, y) == in_goal(other.x, other.y, end=Side.OPPONENTS)


@given(st.integers(-500_000, 500_000), st.integers(-200_000, 1_300_000))
def test_every_goal_is_over_the_goal_line(x: int, y: int) -> None:
    if in_goal(x, y):
        assert is_over_goal_line(at(x, y), SMALL, PLAN)
