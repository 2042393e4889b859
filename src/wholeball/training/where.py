"""Says where an offence happened, from the zone that was named."""

from wholeball.pitch.shapes import Point, at
from wholeball.training.cast import Cast


def where(cast: Cast) -> Point:
    """Return a place in the zone of a situation: zones and goal areas as the facts name them."""
    ground = cast.ground
    goal_area = cast.fact("goal_area")
    if goal_area == "opp":
        return ground.opp(-ground.half_goal * 0.7, ground.goal_area * 0.65)
    if goal_area == "own":
        return ground.own(ground.half_goal * 0.6, ground.goal_area * 0.65)
    between = (ground.goal_area + ground.area) / 2
    match cast.fact("zone") or cast.fact("place"):
        case "own_area":
            return ground.own(ground.half_area * 0.6, between)
        case "off":
            return at(ground.half_width + round(ground.body * 1.6), ground.along(0.42))
        case "off_by_area":
            x = (ground.half_goal + ground.half_area) / 2
            return ground.own(x, -ground.body * 1.6)
        case _:
            return _by_chance(cast)


def dropped_from(cast: Cast) -> Point | None:
    """Return where the ball was at a stop, where a fact names the penalty area it was in."""
    ground = cast.ground
    depth = (ground.goal_area + ground.area) / 2
    match cast.fact("ball_at"):
        case "own_area":
            return ground.own(-ground.half_area * 0.4, depth)
        case "opp_area":
            return ground.opp(-ground.half_area * 0.4, depth)
        case "elsewhere":
            return at(ground.across(0.1), ground.along(0.52))
        case _:
            return None


def _by_chance(cast: Cast) -> Point:
    ground = cast.ground
    match cast.fact("chance"):
        case "obvious" if cast.fact("restart") == "penalty_kick":
            return ground.own(ground.half_area * 0.3, (ground.goal_area + ground.area) / 2)
        case "obvious":
            return ground.own(ground.across(0.05), ground.area * 1.25)
        case "promising":
            return ground.own(ground.across(0.1), max(ground.along(0.3), ground.area * 1.5))
        case _:
            return at(-ground.across(0.14), ground.along(0.44))
