"""Names the one zone of the field that a point lies in."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from wholeball.pitch.areas import Side, field_box, goal_area, penalty_area, seen_from
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Point, is_in


class Zone(StrEnum):
    """Where a point is. Together the zones cover everything, and no two overlap.

    A line belongs to the area it bounds (IFAB Laws of the Game, Law 1.2). The halfway line
    bounds both halves, so it is a zone of its own: Law 11.1 counts it to neither.
    """

    OWN_GOAL_AREA = "own_goal_area"
    OWN_PENALTY_AREA = "own_penalty_area"
    OWN_HALF = "own_half"
    HALFWAY_LINE = "halfway_line"
    OPPONENTS_HALF = "opponents_half"
    OPPONENTS_PENALTY_AREA = "opponents_penalty_area"
    OPPONENTS_GOAL_AREA = "opponents_goal_area"
    BEYOND_OWN_GOAL_LINE = "beyond_own_goal_line"
    BEYOND_OPPONENTS_GOAL_LINE = "beyond_opponents_goal_line"
    BEYOND_TOUCHLINE = "beyond_touchline"


TURNED: Mapping[Zone, Zone] = MappingProxyType(
    {
        Zone.OWN_GOAL_AREA: Zone.OPPONENTS_GOAL_AREA,
        Zone.OWN_PENALTY_AREA: Zone.OPPONENTS_PENALTY_AREA,
        Zone.OWN_HALF: Zone.OPPONENTS_HALF,
        Zone.HALFWAY_LINE: Zone.HALFWAY_LINE,
        Zone.OPPONENTS_HALF: Zone.OWN_HALF,
        Zone.OPPONENTS_PENALTY_AREA: Zone.OWN_PENALTY_AREA,
        Zone.OPPONENTS_GOAL_AREA: Zone.OWN_GOAL_AREA,
        Zone.BEYOND_OWN_GOAL_LINE: Zone.BEYOND_OPPONENTS_GOAL_LINE,
        Zone.BEYOND_OPPONENTS_GOAL_LINE: Zone.BEYOND_OWN_GOAL_LINE,
        Zone.BEYOND_TOUCHLINE: Zone.BEYOND_TOUCHLINE,
    }
)
"""The same zone as the other side names it."""


def zone_of(point: Point, plan: FieldPlan) -> Zone:
    """Return the zone of the point, as the side that attacks upwards names it.

    Penalty area means the part of it outside the goal area; half, the part outside both.
    Beyond a corner, the goal line counts before the touchline.
    """
    if point.y * 2 > plan.length:
        return TURNED[_in_own_end(seen_from(point, plan, Side.OPPONENTS), plan)]
    return _in_own_end(point, plan)


def _in_own_end(point: Point, plan: FieldPlan) -> Zone:
    if point.y < 0:
        return Zone.BEYOND_OWN_GOAL_LINE
    if not is_in(field_box(plan), point):
        return Zone.BEYOND_TOUCHLINE
    for zone, area in (
        (Zone.OWN_GOAL_AREA, goal_area(plan, Side.OWN)),
        (Zone.OWN_PENALTY_AREA, penalty_area(plan, Side.OWN)),
    ):
        if area is not None and is_in(area, point):
            return zone
    is_on_halfway_line = plan.length - 2 * point.y <= plan.line_width
    return Zone.HALFWAY_LINE if is_on_halfway_line else Zone.OWN_HALF
