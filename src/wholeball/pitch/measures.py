"""Measures what curves on a field, and compares two fields; these numbers are not exact."""

from fractions import Fraction
from math import acos, pi, sqrt

from wholeball.kernel.units import TENTHS_IN, Unit
from wholeball.pitch.plan import FieldPlan


def arc_half_chord(plan: FieldPlan) -> float:
    """Return half the width of the penalty arc on the line of the penalty area, in tenths."""
    return sqrt(plan.penalty_arc_radius**2 - _mark_to_line(plan) ** 2)


def arc_angle(plan: FieldPlan) -> float:
    """Return the angle of the penalty arc at the penalty mark, in radians; the field has one."""
    return 2 * acos(_mark_to_line(plan) / plan.penalty_arc_radius)


def arc_length(plan: FieldPlan) -> float:
    """Return the length of the penalty arc, in tenths."""
    return plan.penalty_arc_radius * arc_angle(plan)


def corner_surface(plan: FieldPlan, unit: Unit) -> float:
    """Return the surface of one corner area, in square units."""
    return pi / 4 * (plan.corner_radius / TENTHS_IN[unit]) ** 2


def surface_per_player(plan: FieldPlan, *, players: int, unit: Unit) -> Fraction:
    """Return the surface of the field a player, in square units; `players` counts both sides."""
    return Fraction(plan.length * plan.width, players * TENTHS_IN[unit] ** 2)


def scale(plan: FieldPlan, other: FieldPlan) -> tuple[Fraction, Fraction]:
    """Return how long and how wide the other field is, as parts of this one."""
    return Fraction(other.length, plan.length), Fraction(other.width, plan.width)


def _mark_to_line(plan: FieldPlan) -> int:
    return plan.penalty_area_depth - plan.penalty_mark
