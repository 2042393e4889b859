"""Holds points, boxes and discs with whole coordinates, and says exactly what lies in them.

Coordinates are in tenths of a millimetre, seen by the side that acts: x runs across, from its
left touchline to its right; y runs along, from its own goal line to the opponents'. The origin
is the middle of the outer edge of its own goal line.
"""

from dataclasses import dataclass
from typing import TypeAlias, assert_never

from wholeball.kernel.units import Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A place on or off the field, on the ground."""

    x: Tenths
    y: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle along the field, its four edges included."""

    left: Tenths
    right: Tenths
    near: Tenths
    far: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A circle and all inside it."""

    centre: Point
    radius: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerQuadrant:
    """The part of a disc round a corner that lies on the field."""

    disc: Disc
    field: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class PenaltyArc:
    """The part of a disc round the penalty mark that lies outside the penalty area."""

    disc: Disc
    penalty_area: Box


Area: TypeAlias = Box | Disc | CornerQuadrant | PenaltyArc


def at(x: int, y: int) -> Point:
    """Return the point x tenths to the right of, and y tenths along from, the origin."""
    return Point(x=Tenths(x), y=Tenths(y))


def distance_squared(one: Point, other: Point) -> int:
    """Return the square of the distance, in square tenths: whole, so it is never rounded."""
    return (one.x - other.x) ** 2 + (one.y - other.y) ** 2


def is_in(area: Area, point: Point) -> bool:
    """Return whether the point is in the area or on its line.

    The lines belong to the areas they bound (IFAB Laws of the Game, Law 1.2), and every size
    is measured to the outer edge of the line.
    """
    match area:
        case Box():
            return area.left <= point.x <= area.right and area.near <= point.y <= area.far
        case Disc():
            return distance_squared(area.centre, point) <= area.radius**2
        case CornerQuadrant():
            return is_in(area.disc, point) and is_in(area.field, point)
        case PenaltyArc():
            return is_in(area.disc, point) and not is_in(area.penalty_area, point)
        case _:
            assert_never(area)


def nearest_in(box: Box, point: Point) -> Point:
    """Return the point of the box nearest to the point: itself where it is inside."""
    return at(
        min(max(point.x, box.left), box.right),
        min(max(point.y, box.near), box.far),
    )
