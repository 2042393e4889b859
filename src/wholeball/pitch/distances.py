"""Says where players may stand while a restart is taken."""

from collections.abc import Sequence

from wholeball.kernel.units import Tenths
from wholeball.pitch.areas import (
    Side,
    centre_mark,
    field_box,
    goal_mouth,
    penalty_area,
    penalty_mark,
    seen_from,
)
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Point, distance_squared, is_in

LEAST_IN_WALL = 3
"""A wall is three or more defenders (IFAB Laws of the Game, Law 13.2)."""


def may_stand(opponent: Point, ball: Point, plan: FieldPlan, *, defends: Side) -> bool:
    """Return whether an opponent is far enough from the ball at a free kick.

    At least the distance of a free kick away, or on the goal line they defend, between the posts
    (IFAB Laws of the Game, Law 13.2).
    """
    is_far = distance_squared(opponent, ball) >= plan.distances.free_kick**2
    return is_far or is_in(goal_mouth(plan, defends), opponent)


def may_stand_at_kick_off(opponent: Point, plan: FieldPlan, *, defends: Side) -> bool:
    """Return whether an opponent is in their half and far enough (Law 8.1).

    The halfway line belongs to both halves.
    """
    is_far = distance_squared(opponent, centre_mark(plan)) >= plan.distances.kick_off**2
    own = seen_from(opponent, plan, defends)
    return is_far and 2 * own.y <= plan.length + plan.line_width


def corner_distance(plan: FieldPlan) -> Tenths:
    """Return how far opponents keep from the corner itself: the distance counts from the arc.

    Source: IFAB Laws of the Game, Law 17.1.
    """
    return Tenths(plan.distances.corner + plan.corner_radius)


def may_stand_at_corner(opponent: Point, corner: Point, plan: FieldPlan) -> bool:
    """Return whether an opponent is far enough from the corner arc at a corner kick."""
    return distance_squared(opponent, corner) >= corner_distance(plan) ** 2


def may_stand_at_penalty(player: Point, plan: FieldPlan, *, end: Side) -> bool:
    """Return whether a player other than the kicker and the goalkeeper stands where they may.

    On the field, behind the mark, outside the penalty area and at least the distance of a
    penalty kick from the mark, which the arc shows (IFAB Laws of the Game, Law 14.1).
    """
    mark, area = penalty_mark(plan, end), penalty_area(plan, end)
    least = plan.distances.penalty
    is_outside = area is None or not is_in(area, player)
    is_far = mark is None or distance_squared(player, mark) >= least**2
    is_behind = seen_from(player, plan, end).y > plan.penalty_mark
    return is_in(field_box(plan), player) and is_behind and is_outside and is_far


def may_stand_at_throw_in(opponent: Point, taken_from: Point, plan: FieldPlan) -> bool:
    """Return whether an opponent is far enough from the point on the touchline (Law 15.1)."""
    return distance_squared(opponent, taken_from) >= plan.distances.throw_in**2


def may_stand_at_dropped_ball(player: Point, ball: Point, plan: FieldPlan) -> bool:
    """Return whether a player who does not receive the ball is far enough from it (Law 8.2)."""
    return distance_squared(player, ball) >= plan.distances.dropped_ball**2


def is_wall(defenders: Sequence[Point]) -> bool:
    """Return whether so many defenders side by side make a wall."""
    return len(defenders) >= LEAST_IN_WALL


def may_stand_by_wall(attacker: Point, defenders: Sequence[Point], *, distance: Tenths) -> bool:
    """Return whether an attacker is far enough from every defender of a wall.

    IFAB Laws of the Game, Law 13.2: at least 1 m (1 yd), until the ball is in play.
    """
    if not is_wall(defenders):
        return True
    return all(distance_squared(attacker, each) >= distance**2 for each in defenders)
