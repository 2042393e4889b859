"""Holds the field of Law 1 in both systems, as an example: tests and pages show it.

No rule reads it: every size of a real field comes from its rulebook.
Source: IFAB Laws of the Game, Laws 1.2 to 1.10 and 13.2. Length and width lie within the
limits of Law 1.3 (common practice, no source).
"""

from decimal import Decimal

from wholeball.kernel.units import tenths
from wholeball.pitch.plan import FieldPlan


def laws_in_metres() -> FieldPlan:
    """Return a full field with the metric figures of the Laws."""
    return FieldPlan(
        length=tenths(105, "m"),
        width=tenths(68, "m"),
        line_width=tenths(12, "cm"),
        goal_width=tenths(Decimal("7.32"), "m"),
        goal_height=tenths(Decimal("2.44"), "m"),
        post_width=tenths(12, "cm"),
        goal_area_depth=tenths(Decimal("5.5"), "m"),
        goal_area_side=tenths(Decimal("5.5"), "m"),
        penalty_area_depth=tenths(Decimal("16.5"), "m"),
        penalty_area_side=tenths(Decimal("16.5"), "m"),
        penalty_mark=tenths(11, "m"),
        penalty_arc_radius=tenths(Decimal("9.15"), "m"),
        centre_circle_radius=tenths(Decimal("9.15"), "m"),
        corner_radius=tenths(1, "m"),
        restart_distance=tenths(Decimal("9.15"), "m"),
    )


def laws_in_yards() -> FieldPlan:
    """Return a full field with the imperial figures of the Laws."""
    return FieldPlan(
        length=tenths(110, "yd"),
        width=tenths(70, "yd"),
        line_width=tenths(5, "in"),
        goal_width=tenths(8, "yd"),
        goal_height=tenths(8, "ft"),
        post_width=tenths(5, "in"),
        goal_area_depth=tenths(6, "yd"),
        goal_area_side=tenths(6, "yd"),
        penalty_area_depth=tenths(18, "yd"),
        penalty_area_side=tenths(18, "yd"),
        penalty_mark=tenths(12, "yd"),
        penalty_arc_radius=tenths(10, "yd"),
        centre_circle_radius=tenths(10, "yd"),
        corner_radius=tenths(1, "yd"),
        restart_distance=tenths(10, "yd"),
    )
