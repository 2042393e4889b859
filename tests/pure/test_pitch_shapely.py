"""Checks the pitch against an independent library of plane geometry."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.units import NONE, tenths
from wholeball.pitch.areas import Side, penalty_arc, penalty_area, penalty_mark
from wholeball.pitch.ball import ball_radius, is_over_goal_line, is_over_touchline
from wholeball.pitch.distances import may_stand, may_stand_at_penalty
from wholeball.pitch.example import laws_in_metres, laws_in_yards
from wholeball.pitch.measures import arc_half_chord, arc_length, corner_surface
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Point, at, is_in
from wholeball.pitch.spots import nearest_boundary, nearest_on_field
from wholeball.pitch.zones import Zone, zone_of

METRES, YARDS = laws_in_metres(), laws_in_yards()
PLANS = st.sampled_from(
    [METRES, YARDS, replace(METRES, goal_area_depth=NONE, goal_area_side=NONE)]
)
POINTS = st.builds(at, st.integers(-400_000, 400_000), st.integers(-100_000, 1_150_000))
FINE = 2_000
"""Straight pieces in a quarter of a shapely circle."""
NEAR = 1.0
"""A shapely circle is a polygon: up to so many tenths of a millimetre inside the true one."""


def dot(point: Point) -> shapely.Point:
    return shapely.Point(point.x, point.y)


def rectangle(plan: FieldPlan, *, depth: int, side: int) -> shapely.Polygon:
    half = plan.goal_width // 2 + side
    return shapely.box(-half, 0, half, depth)


def turned(shape: shapely.Geometry, plan: FieldPlan) -> shapely.Geometry:
    return shapely.affinity.rotate(shape, 180, origin=(0, plan.length / 2))


def zones_as_polygons(plan: FieldPlan) -> dict[Zone, shapely.Geometry]:
    far, edge, line = plan.length, plan.width / 2, plan.line_width / 2
    small = rectangle(plan, depth=plan.goal_area_depth, side=plan.goal_area_side)
    large = rectangle(plan, depth=plan.penalty_area_depth, side=plan.penalty_area_side)
    half = shapely.box(-edge, 0, edge, far / 2 - line)
    big = 10_000_000
    field = shapely.box(-edge, 0, edge, far)
    own = {
        Zone.OWN_GOAL_AREA: small,
        Zone.OWN_PENALTY_AREA: large - small,
        Zone.OWN_HALF: half - large,
        Zone.BEYOND_OWN_GOAL_LINE: shapely.box(-big, -big, big, 0),
    }
    opponents = {
        Zone(zone.replace("own", "opponents")): turned(shape, plan)
        for zone, shape in own.items()
    }
    middle = {
        Zone.HALFWAY_LINE: shapely.box(-edge, far / 2 - line, edge, far / 2 + line),
        Zone.BEYOND_TOUCHLINE: shapely.box(-big, 0, big, far) - field,
    }
    return {**own, **opponents, **middle}


ZONES = {plan: zones_as_polygons(plan) for plan in (METRES, YARDS)}


@pytest.mark.parametrize("plan", [METRES, YARDS])
def test_the_zones_overlap_nowhere_and_leave_no_gap(plan: FieldPlan) -> None:
    shapes = list(ZONES[plan].values())
    for index, one in enumerate(shapes):
        for other in shapes[index + 1 :]:
            assert one.intersection(other).area == pytest.approx(0)
    on_field = [
        shape for zone, shape in ZONES[plan].items() if not zone.value.startswith("beyond")
    ]
    assert sum(shape.area for shape in on_field) == pytest.approx(plan.length * plan.width)


@given(POINTS, st.sampled_from([METRES, YARDS]))
def test_a_points_zone_is_the_polygon_it_lies_in(point: Point, plan: FieldPlan) -> None:
    touching = {zone for zone, shape in ZONES[plan].items() if shape.covers(dot(point))}
    assert zone_of(point, plan) in touching


@given(st.integers(1_080, 1_120), st.integers(680, 700), st.integers(-300_000, 300_000), PLANS)
def test_a_ball_is_over_when_its_circle_no_longer_meets_the_field(
    beyond: int, circumference: int, along: int, plan: FieldPlan
) -> None:
    radius = ball_radius(tenths(circumference, "mm"))
    edge = plan.width // 2
    strip = shapely.box(-edge, 0, edge, plan.length)
    at_goal, at_side = at(along, -beyond), at(-edge - beyond, 400_000 + along)
    assert is_over_goal_line(at_goal, radius, plan) == (dot(at_goal).distance(strip) > radius)
    assert is_over_touchline(at_side, radius, plan) == (dot(at_side).distance(strip) > radius)


@given(POINTS, PLANS)
def test_the_nearest_boundary_point_is_as_near_as_any(point: Point, plan: FieldPlan) -> None:
    edge = plan.width // 2
    field = shapely.box(-edge, 0, edge, plan.length)
    found = nearest_boundary(point, plan)
    assert field.boundary.distance(dot(found)) == 0
    assert dot(point).distance(dot(found)) == pytest.approx(field.boundary.distance(dot(point)))
    on_field = nearest_on_field(point, plan)
    assert dot(point).distance(dot(on_field)) == pytest.approx(field.distance(dot(point)))


@pytest.mark.parametrize("plan", [METRES, YARDS])
def test_the_arc_is_as_long_and_as_wide_as_the_cut_circle(plan: FieldPlan) -> None:
    circle = shapely.Point(0, plan.penalty_mark).buffer(plan.penalty_arc_radius, FINE)
    area = rectangle(plan, depth=plan.penalty_area_depth, side=plan.penalty_area_side)
    beyond = shapely.box(-(10**6), plan.penalty_area_depth, 10**6, 10**6)
    arc = circle.boundary.intersection(beyond)
    assert arc_length(plan) == pytest.approx(arc.length, rel=1e-6)
    left, _, right, _ = circle.boundary.intersection(area.boundary).bounds
    assert arc_half_chord(plan) == pytest.approx((right - left) / 2, rel=1e-5)


def test_a_corner_area_is_a_quarter_of_the_circle() -> None:
    circle = shapely.Point(0, 0).buffer(YARDS.corner_radius, FINE)
    quarter = circle.intersection(shapely.box(0, 0, 10**6, 10**6))
    assert corner_surface(YARDS, "mm") * 100 == pytest.approx(quarter.area, rel=1e-6)


@given(st.integers(-100_000, 100_000), st.integers(150_000, 220_000), PLANS)
def test_the_arc_is_the_circle_without_the_area(x: int, y: int, plan: FieldPlan) -> None:
    circle = shapely.Point(0, plan.penalty_mark).buffer(plan.penalty_arc_radius, FINE)
    area = rectangle(plan, depth=plan.penalty_area_depth, side=plan.penalty_area_side)
    arc = penalty_arc(plan, Side.OWN)
    assert arc is not None
    if circle.boundary.distance(shapely.Point(x, y)) > NEAR:
        expected = circle.covers(shapely.Point(x, y)) and not area.covers(shapely.Point(x, y))
        assert is_in(arc, at(x, y)) == expected


@given(POINTS, POINTS, PLANS)
def test_who_is_too_near_is_inside_the_circle_round_the_ball(
    player: Point, ball: Point, plan: FieldPlan
) -> None:
    is_near = dot(player).distance(dot(ball)) < plan.distances.free_kick
    mouth = rectangle(plan, depth=plan.line_width, side=0)
    on_line = mouth.covers(dot(player))
    assert may_stand(player, ball, plan, defends=Side.OWN) == (not is_near or on_line)


@given(POINTS, PLANS)
def test_at_a_penalty_the_field_without_area_circle_and_front_is_left(
    player: Point, plan: FieldPlan
) -> None:
    edge = plan.width / 2
    mark, area = penalty_mark(plan, Side.OWN), penalty_area(plan, Side.OWN)
    assert mark is not None
    assert area is not None
    behind = shapely.box(-edge, plan.penalty_mark + 1, edge, plan.length)
    closed = shapely.box(area.left, area.near, area.right, area.far)
    may = (
        behind.covers(dot(player))
        and not closed.covers(dot(player))
        and dot(mark).distance(dot(player)) >= plan.distances.penalty
    )
    assert may_stand_at_penalty(player, plan, end=Side.OWN) == may
