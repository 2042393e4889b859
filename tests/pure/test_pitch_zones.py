from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.units import NONE, Tenths
from wholeball.pitch.areas import Side, goal_area, penalty_area, turned
from wholeball.pitch.example import laws_in_metres, laws_in_yards
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import at, is_in
from wholeball.pitch.zones import TURNED, Zone, zone_of

METRES, YARDS = laws_in_metres(), laws_in_yards()
OPEN = replace(METRES, goal_area_depth=NONE, goal_area_side=NONE)
LONE_AREA = replace(
    METRES,
    penalty_area_depth=NONE,
    penalty_area_side=NONE,
    penalty_arc_radius=NONE,
    line_width=Tenths(1),
    post_width=Tenths(1),
)
PLANS = st.sampled_from([METRES, YARDS, OPEN, LONE_AREA])
ALONG = (0, 55_000, 165_000, 524_400, 525_000, 525_600, 885_000, 995_000, 1_050_000)
ACROSS = (0, 91_600, 201_600, 340_000)
NEAR_LINE = st.integers(-2, 2)
XS = st.integers(-400_000, 400_000) | st.builds(
    lambda x, near, sign: sign * (x + near),
    st.sampled_from(ACROSS),
    NEAR_LINE,
    st.sampled_from([-1, 1]),
)
YS = st.integers(-100_000, 1_150_000) | st.builds(
    lambda y, near: y + near, st.sampled_from(ALONG), NEAR_LINE
)


@pytest.mark.parametrize(
    ("x", "y", "zone"),
    [
        (0, -1, Zone.BEYOND_OWN_GOAL_LINE),
        (0, 0, Zone.OWN_GOAL_AREA),
        (91_600, 55_000, Zone.OWN_GOAL_AREA),
        (91_601, 55_000, Zone.OWN_PENALTY_AREA),
        (91_600, 55_001, Zone.OWN_PENALTY_AREA),
        (-201_600, 165_000, Zone.OWN_PENALTY_AREA),
        (-201_601, 165_000, Zone.OWN_HALF),
        (0, 165_001, Zone.OWN_HALF),
        (0, 524_399, Zone.OWN_HALF),
        (0, 524_400, Zone.HALFWAY_LINE),
        (0, 525_000, Zone.HALFWAY_LINE),
        (0, 525_600, Zone.HALFWAY_LINE),
        (0, 525_601, Zone.OPPONENTS_HALF),
        (0, 884_999, Zone.OPPONENTS_HALF),
        (0, 885_000, Zone.OPPONENTS_PENALTY_AREA),
        (0, 995_000, Zone.OPPONENTS_GOAL_AREA),
        (0, 1_050_000, Zone.OPPONENTS_GOAL_AREA),
        (0, 1_050_001, Zone.BEYOND_OPPONENTS_GOAL_LINE),
        (340_000, 300_000, Zone.OWN_HALF),
        (340_001, 300_000, Zone.BEYOND_TOUCHLINE),
        (-340_001, 800_000, Zone.BEYOND_TOUCHLINE),
        (340_001, -1, Zone.BEYOND_OWN_GOAL_LINE),
    ],
)
def test_each_line_belongs_to_the_area_it_bounds(x: int, y: int, zone: Zone) -> None:
    assert zone_of(at(x, y), METRES) is zone


@given(XS, YS, PLANS)
def test_the_other_side_names_the_turned_zone(x: int, y: int, plan: FieldPlan) -> None:
    point = at(x, y)
    assert zone_of(turned(point, plan), plan) is TURNED[zone_of(point, plan)]


@given(XS, YS, PLANS)
def test_zones_left_and_right_are_alike(x: int, y: int, plan: FieldPlan) -> None:
    assert zone_of(at(x, y), plan) is zone_of(at(-x, y), plan)


@given(XS, YS, PLANS)
def test_a_point_is_in_an_area_exactly_when_its_zone_says_so(
    x: int, y: int, plan: FieldPlan
) -> None:
    zone = zone_of(at(x, y), plan)
    for end, inner, outer in (
        (Side.OWN, Zone.OWN_GOAL_AREA, Zone.OWN_PENALTY_AREA),
        (Side.OPPONENTS, Zone.OPPONENTS_GOAL_AREA, Zone.OPPONENTS_PENALTY_AREA),
    ):
        small, large = goal_area(plan, end), penalty_area(plan, end)
        assert (zone is inner) == (small is not None and is_in(small, at(x, y)))
        if large is not None:
            assert (zone in {inner, outer}) == is_in(large, at(x, y))


def test_every_zone_has_one_turned_zone_that_turns_back() -> None:
    assert set(TURNED) == set(Zone)
    assert all(TURNED[TURNED[zone]] is zone for zone in Zone)
