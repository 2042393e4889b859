"""Turns the symbolic spot of a ruling into a place on a given field."""

from collections.abc import Callable, Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import TypeAlias

from wholeball.kernel.faults import WholeballError
from wholeball.pitch.areas import (
    Side,
    centre_mark,
    corner_quadrant,
    corners,
    field_box,
    goal_area,
    penalty_area,
    penalty_mark,
)
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Box, CornerQuadrant, Point, at, is_in, nearest_in

Place: TypeAlias = Point | Box | CornerQuadrant
"""One point, or an area anywhere in which the restart may be taken."""


class Spot(StrEnum):
    """Where a restart is taken, in words.

    "Wherever a dropped ball goes" is no spot: by the edition of the Laws it is where the ball
    last touched, where it was when play stopped, or the goalkeeper's penalty area, and only
    the ruling knows which.
    """

    BALL_WHEN_STOPPED = "ball_when_stopped"
    CENTRE_MARK = "centre_mark"
    CORNER_NEAREST = "corner_nearest"
    GOAL_AREA = "goal_area"
    GOAL_AREA_LINE_NEAREST = "goal_area_line_nearest"
    GOALKEEPER_IN_PENALTY_AREA = "goalkeeper_in_penalty_area"
    INTERFERENCE = "interference"
    LAST_TOUCH = "last_touch"
    NEAREST_BOUNDARY = "nearest_boundary"
    OFFENCE = "offence"
    OFFENCE_OR_NEAREST_BOUNDARY = "offence_or_nearest_boundary"
    PENALTY_AREA_LINE_NEAREST = "penalty_area_line_nearest"
    PENALTY_MARK = "penalty_mark"
    SAME_PLACE = "same_place"
    STRUCK = "struck"
    WHERE_IT_LEFT = "where_it_left"


def place(spot: Spot, point: Point, plan: FieldPlan, *, end: Side) -> Place:
    """Return where the restart is taken.

    Args:
        spot: the ruling's spot.
        point: where it happened: the offence, the ball, the touch, or where the ball left.
        plan: the field.
        end: the end whose mark, goal area, penalty area or corner is meant.

    Raises:
        WholeballError: the spot needs a marking that this field does not have.

    Source: IFAB Laws of the Game, Laws 8.2, 13.2, 14.1, 15.1, 16.1 and 17.1.
    """
    return _PLACED[spot](point, plan, end)


def nearest_on_field(point: Point, plan: FieldPlan, _end: Side = Side.OWN) -> Point:
    """Return the point, or the boundary point nearest to it where it is off the field.

    A ball in play may have its centre just beyond the line, and a free kick for an offence off
    the field is taken on the boundary line (Law 13.2).
    """
    return nearest_in(field_box(plan), point)


def nearest_boundary(point: Point, plan: FieldPlan, _end: Side = Side.OWN) -> Point:
    """Return the point of touchlines and goal lines nearest to the point.

    Between equally near ones: left, right, own goal line, opponents' goal line.
    """
    box = field_box(plan)
    if not is_in(box, point):
        return nearest_in(box, point)
    edges = (
        (point.x - box.left, at(box.left, point.y)),
        (box.right - point.x, at(box.right, point.y)),
        (point.y - box.near, at(point.x, box.near)),
        (box.far - point.y, at(point.x, box.far)),
    )
    return min(edges, key=lambda edge: edge[0])[1]


def _centre_mark(_point: Point, plan: FieldPlan, _end: Side) -> Point:
    return centre_mark(plan)


def _penalty_mark(_point: Point, plan: FieldPlan, end: Side) -> Point:
    mark = penalty_mark(plan, end)
    if mark is None:
        raise _missing("penalty mark", "penalty_mark")
    return mark


def _corner_nearest(point: Point, plan: FieldPlan, end: Side) -> Point | CornerQuadrant:
    """Law 17.1: the corner area nearest to where the ball went out; from the middle, the right."""
    left, right = corners(plan, end)
    corner = left if point.x < 0 else right
    return corner_quadrant(plan, corner) or corner


def _kick_area(plan: FieldPlan, end: Side) -> Box:
    """The goal area; without one the penalty area (futsal, Laws 13 and 16, from memory)."""
    area = goal_area(plan, end) or penalty_area(plan, end)
    if area is None:
        raise _missing("goal area and no penalty area", "goal_area_depth")
    return area


def _goal_area(_point: Point, plan: FieldPlan, end: Side) -> Box:
    return _kick_area(plan, end)


def _goal_area_line_nearest(point: Point, plan: FieldPlan, end: Side) -> Point:
    """Law 13.2: straight up the field to the line parallel to the goal line; else unchanged."""
    area = _kick_area(plan, end)
    inside = nearest_on_field(point, plan)
    if not is_in(area, inside):
        return inside
    return Point(x=inside.x, y=area.far if end is Side.OWN else area.near)


def _penalty_area_line_nearest(point: Point, plan: FieldPlan, end: Side) -> Point:
    """Straight up the field to the line parallel to the goal line (common practice, no source)."""
    area = _penalty_area(point, plan, end)
    inside = nearest_on_field(point, plan)
    if not is_in(area, inside):
        return inside
    return Point(x=inside.x, y=area.far if end is Side.OWN else area.near)


def _penalty_area(_point: Point, plan: FieldPlan, end: Side) -> Box:
    area = penalty_area(plan, end)
    if area is None:
        raise _missing("penalty area", "penalty_area_depth")
    return area


def _where_it_left(point: Point, plan: FieldPlan, _end: Side) -> Point:
    """Law 15.1: the point of the touchline; from the very middle, the right one."""
    box = field_box(plan)
    return Point(x=box.left if point.x < 0 else box.right, y=nearest_in(box, point).y)


def _missing(marking: str, key: str) -> WholeballError:
    return WholeballError(
        f"This field has no {marking}, and a restart is taken there.",
        fix=f"Give {key} a size, or change the restart.",
        code="no_marking",
    )


_PLACED: Mapping[Spot, Callable[[Point, FieldPlan, Side], Place]] = MappingProxyType(
    {
        Spot.BALL_WHEN_STOPPED: nearest_on_field,
        Spot.CENTRE_MARK: _centre_mark,
        Spot.CORNER_NEAREST: _corner_nearest,
        Spot.GOAL_AREA: _goal_area,
        Spot.GOAL_AREA_LINE_NEAREST: _goal_area_line_nearest,
        Spot.GOALKEEPER_IN_PENALTY_AREA: _penalty_area,
        Spot.INTERFERENCE: nearest_on_field,
        Spot.LAST_TOUCH: nearest_on_field,
        Spot.NEAREST_BOUNDARY: nearest_boundary,
        Spot.OFFENCE: nearest_on_field,
        Spot.OFFENCE_OR_NEAREST_BOUNDARY: nearest_on_field,
        Spot.PENALTY_AREA_LINE_NEAREST: _penalty_area_line_nearest,
        Spot.PENALTY_MARK: _penalty_mark,
        Spot.SAME_PLACE: nearest_on_field,
        Spot.STRUCK: nearest_on_field,
        Spot.WHERE_IT_LEFT: _where_it_left,
    }
)
