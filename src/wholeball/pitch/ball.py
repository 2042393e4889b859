"""Says whether the whole of the ball is over the whole of the line."""

from math import floor, tau

from wholeball.kernel.units import Tenths
from wholeball.pitch.areas import Side, field_box, seen_from
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Point


def true_radius(circumference: Tenths) -> float:
    """Return the radius of a ball of that circumference, in tenths, not rounded.

    IFAB Laws of the Game, Law 2.1: a circumference of 68 to 70 cm.
    """
    return circumference / tau


def ball_radius(circumference: Tenths) -> Tenths:
    """Return the radius, rounded down once.

    Down, because a ball is out when its centre is *more* than the radius beyond the line, and
    places are whole tenths: a whole number is above the true radius exactly when it is above
    the radius rounded down. So no ball is called out too early, and none too late.
    """
    return Tenths(floor(true_radius(circumference)))


def is_over_goal_line(centre: Point, radius: Tenths, plan: FieldPlan) -> bool:
    """Return whether the whole ball is beyond the outer edge of either goal line.

    `centre` is the ball's, looked at from above: on the ground and in the air the same upright
    plane decides (IFAB Laws of the Game, Law 9.1).
    """
    return centre.y < -radius or centre.y > plan.length + radius


def is_over_touchline(centre: Point, radius: Tenths, plan: FieldPlan) -> bool:
    """Return whether the whole ball is beyond the outer edge of either touchline (Law 9.1)."""
    return abs(centre.x) > field_box(plan).right + radius


def is_out(centre: Point, radius: Tenths, plan: FieldPlan) -> bool:
    """Return whether the ball is out of play by its place alone."""
    return is_over_goal_line(centre, radius, plan) or is_over_touchline(centre, radius, plan)


def is_goal(
    centre: Point, *, height: Tenths, radius: Tenths, plan: FieldPlan, end: Side
) -> bool:
    """Return whether the ball is in the goal at that end (IFAB Laws of the Game, Law 10.1).

    The whole ball is over the goal line, its centre between the insides of the posts and under
    the bar. The centre decides there, not the ball's edge: a ball that is already behind the
    line may rest behind a post, and it passed between the posts to get there. `height` is that
    of the centre above the ground.
    """
    seen = seen_from(centre, plan, end)
    return seen.y < -radius and abs(seen.x) < plan.goal_width // 2 and height < plan.goal_height
