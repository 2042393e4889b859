"""Holds the field of Law 1 in both systems, as an example: tests and pages show it.

No rule reads it: every size of a real field comes from its rulebook.
Source: IFAB Laws of the Game, Laws 1.2 to 1.10, 8, 13 to 15 and 17 for the distances. Length and width lie within the
limits of Law 1.3 (common practice, no source).
"""

from decimal import Decimal

from wholeball.kernel.units import Tenths, tenths
from wholeball.pitch.kept_away import Distances
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
        distances=_distances(
            tenths(Decimal("9.15"), "m"), throw_in=tenths(2, "m"), dropped_ball=tenths(4, "m")
        ),
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
        distances=_distances(
            tenths(10, "yd"),
            throw_in=tenths(2, "yd"),
            dropped_ball=tenths(Decimal("4.5"), "yd"),
        ),
    )


def _distances(kick: Tenths, *, throw_in: Tenths, dropped_ball: Tenths) -> Distances:
    return Distances(
        free_kick=kick,
        kick_off=kick,
        corner=kick,
        penalty=kick,
        throw_in=throw_in,
        dropped_ball=dropped_ball,
    )
