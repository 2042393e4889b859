"""Lays a field plan out as areas, marks and lines with whole coordinates."""

from enum import StrEnum
from math import isqrt

from wholeball.kernel.units import NONE, Tenths
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Box, CornerQuadrant, Disc, PenaltyArc, Point, at


class Side(StrEnum):
    """An end of the field, named by the side that acts: it attacks the opponents' end."""

    OWN = "own"
    OPPONENTS = "opponents"


def turned(point: Point, plan: FieldPlan) -> Point:
    """Return where the point lies once the field is turned by 180 degrees."""
    return at(-point.x, plan.length - point.y)


def seen_from(point: Point, plan: FieldPlan, end: Side) -> Point:
    """Return the point as the side that defends `end` sees it; twice gives the point back."""
    return point if end is Side.OWN else turned(point, plan)


def field_box(plan: FieldPlan) -> Box:
    """Return the field of play, touchlines and goal lines included."""
    half = plan.width // 2
    return Box(left=Tenths(-half), right=Tenths(half), near=NONE, far=plan.length)


def goal_area(plan: FieldPlan, end: Side) -> Box | None:
    """Return the goal area at that end, or None where the field has none."""
    return _area_at_goal(plan, end, depth=plan.goal_area_depth, side=plan.goal_area_side)


def penalty_area(plan: FieldPlan, end: Side) -> Box | None:
    """Return the penalty area at that end, goal area included, or None where there is none."""
    return _area_at_goal(plan, end, depth=plan.penalty_area_depth, side=plan.penalty_area_side)


def centre_mark(plan: FieldPlan) -> Point:
    """Return the middle of the field."""
    return at(0, plan.length // 2)


def centre_circle(plan: FieldPlan) -> Disc | None:
    """Return the centre circle, or None where the field has none."""
    if plan.centre_circle_radius == 0:
        return None
    return Disc(centre=centre_mark(plan), radius=plan.centre_circle_radius)


def penalty_mark(plan: FieldPlan, end: Side) -> Point | None:
    """Return the penalty mark at that end, or None where the field has none."""
    if plan.penalty_mark == 0:
        return None
    return seen_from(at(0, plan.penalty_mark), plan, end)


def penalty_arc(plan: FieldPlan, end: Side) -> PenaltyArc | None:
    """Return what lies between the penalty arc and the penalty area, or None."""
    mark, area = penalty_mark(plan, end), penalty_area(plan, end)
    if plan.penalty_arc_radius == 0 or mark is None or area is None:
        return None
    return PenaltyArc(disc=Disc(centre=mark, radius=plan.penalty_arc_radius), penalty_area=area)


def arc_ends(plan: FieldPlan, end: Side) -> tuple[Point, Point] | None:
    """Return where the penalty arc meets the line of the penalty area, left end first.

    Rounded once, to the tenth nearer to the middle: so an end is never outside its own arc.
    """
    if plan.penalty_arc_radius == 0:
        return None
    rest = plan.penalty_area_depth - plan.penalty_mark
    half = isqrt(plan.penalty_arc_radius**2 - rest**2)
    ends = (at(-half, plan.penalty_area_depth), at(half, plan.penalty_area_depth))
    left, right = sorted((seen_from(each, plan, end) for each in ends), key=lambda each: each.x)
    return left, right


def corners(plan: FieldPlan, end: Side) -> tuple[Point, Point]:
    """Return where that goal line meets the touchlines, left corner first."""
    box = field_box(plan)
    y = box.near if end is Side.OWN else box.far
    return Point(x=box.left, y=y), Point(x=box.right, y=y)


def corner_quadrant(plan: FieldPlan, corner: Point) -> CornerQuadrant | None:
    """Return the corner area round that corner, or None where the field has none."""
    if plan.corner_radius == 0:
        return None
    disc = Disc(centre=corner, radius=plan.corner_radius)
    return CornerQuadrant(disc=disc, field=field_box(plan))


def goal_mouth(plan: FieldPlan, end: Side) -> Box:
    """Return the goal line between the posts, as wide as the line is."""
    return _end_box(plan, end, half=plan.goal_width // 2, depth=plan.line_width)


def _area_at_goal(plan: FieldPlan, end: Side, *, depth: int, side: int) -> Box | None:
    if depth == 0:
        return None
    return _end_box(plan, end, half=plan.goal_width // 2 + side, depth=depth)


def _end_box(plan: FieldPlan, end: Side, *, half: int, depth: int) -> Box:
    near = 0 if end is Side.OWN else plan.length - depth
    return Box(
        left=Tenths(-half), right=Tenths(half), near=Tenths(near), far=Tenths(near + depth)
    )
