"""Measures a field out for scenes: named distances, and places counted from either goal."""

from dataclasses import dataclass

from wholeball.kernel.units import Tenths
from wholeball.pitch.areas import Side
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Box, Point, at

AREA_WITHOUT = 6
"""A field without a marking has an area of a sixth of its length for the eye."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """A field and the size at which figures are drawn on it; all lengths in tenths."""

    plan: FieldPlan
    body: int

    @property
    def half_width(self) -> int:
        return self.plan.width // 2

    @property
    def half_goal(self) -> int:
        return self.plan.goal_width // 2

    @property
    def area(self) -> int:
        """Depth of the penalty area."""
        return self.plan.penalty_area_depth or self.plan.length // AREA_WITHOUT

    @property
    def goal_area(self) -> int:
        """Depth of the goal area, or of what stands in for it."""
        return self.plan.goal_area_depth or self.area // 2

    @property
    def half_area(self) -> int:
        """Half the width of the penalty area."""
        side = self.plan.penalty_area_side or self.half_width // 2
        return min(self.half_goal + side, self.half_width)

    @property
    def mark(self) -> int:
        """From the goal line to the penalty mark."""
        return self.plan.penalty_mark or self.area * 2 // 3

    def across(self, share: float) -> int:
        """Return a share of the width, counted from the middle."""
        return round(self.plan.width * share)

    def along(self, share: float) -> int:
        """Return a share of the length."""
        return round(self.plan.length * share)

    def own(self, x: float, depth: float) -> Point:
        """Return a place counted from the goal line of side A."""
        return at(round(x), round(depth))

    def opp(self, x: float, depth: float) -> Point:
        """Return a place counted from the goal line of side B."""
        return at(round(x), round(self.plan.length - depth))

    def by(self, point: Point, right: float, up: float) -> Point:
        """Return the place so many bodies to the right of a point and up the field from it."""
        return at(round(point.x + right * self.body), round(point.y + up * self.body))


def ways_to_look(plan: FieldPlan) -> tuple[tuple[Side, Box], ...]:
    """Return which end may be above and what may be shown, the closest look first.

    The area at either end, the middle, either half; the same with what is beside the field;
    the whole field.
    """
    ground = Ground(plan=plan, body=0)
    side = ground.half_width + plan.width // 14
    wide = ground.half_width + plan.width // 5
    close = min(side, ground.half_area + plan.width // 6)
    over = plan.width // 14
    deep = min(ground.area * 2, plan.length // 2)
    half = plan.length // 2 + plan.length // 12
    middle = round(plan.length * 0.24)

    def box(half_width: int, near: int, far: int) -> Box:
        return Box(
            left=Tenths(-half_width),
            right=Tenths(half_width),
            near=Tenths(near),
            far=Tenths(far),
        )

    return (
        (Side.OPPONENTS, box(close, plan.length - deep, plan.length + over)),
        (Side.OWN, box(close, -over, deep)),
        (Side.OPPONENTS, box(side, middle, plan.length - middle)),
        (Side.OPPONENTS, box(side, plan.length - half, plan.length + over)),
        (Side.OWN, box(side, -over, half)),
        (Side.OPPONENTS, box(wide, middle, plan.length - middle)),
        (Side.OPPONENTS, box(wide, plan.length - half, plan.length + 2 * over)),
        (Side.OWN, box(wide, -2 * over, half)),
        (Side.OPPONENTS, box(wide, -2 * over, plan.length + 2 * over)),
    )
