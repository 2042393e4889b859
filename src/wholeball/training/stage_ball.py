"""Stages what happened when the ball met a line of the field."""

from wholeball.pitch.shapes import Point, at
from wholeball.training.cast import Cast
from wholeball.training.restarts import FREE, set_up, wall


def ball_over(cast: Cast) -> None:
    """Stage a ball that met a line, in open play or straight from a restart."""
    end = _where_to(cast)
    kind = cast.fact("kind")
    if kind:
        start = set_up(cast, kind, spot=_far_from_own_goal(cast, kind))
        if kind in FREE and cast.fact("line") != "own":
            wall(cast, start)
        if cast.fact("drop_touched") == "one":
            taker = cast.figures[-1].at
            cast.run(taker, cast.ground.by(start, -0.7, 0.0))
    else:
        start = _last_touch(cast, end)
    if cast.fact("through") == "second_play":
        goal = cast.ground.opp(0, 0)
        keeper = cast.put(cast.ground.by(goal, -1.4, -1.2), "B", "goalkeeper", "keeper")
        start = cast.send(start, cast.ground.by(keeper, 1.0, -1.6))
    in_air = kind in ("throw_in", "corner_kick", "goal_kick")
    cast.send(start, end, in_air=in_air, via=_swing(cast, kind))
    cast.event = end
    if cast.fact("mouth") == "in" and cast.fact("line") == "opp":
        _beaten_keeper(cast)


def _where_to(cast: Cast) -> Point:
    ground = cast.ground
    post = ground.half_goal
    if cast.fact("whole") == "no":
        return ground.opp(post * 0.45, 0)
    match (cast.fact("line"), cast.fact("mouth")):
        case ("touch", _):
            return at(ground.half_width + round(ground.body * 0.8), ground.along(0.66))
        case ("own", "in"):
            return ground.own(post * 0.45, -ground.body)
        case ("own", _):
            return ground.own(post + ground.across(0.12), -ground.body)
        case (_, "in"):
            return ground.opp(post * 0.45, -ground.body)
        case _:
            return ground.opp(post + ground.across(0.12), -ground.body)


def _swing(cast: Cast, kind: str) -> Point | None:
    """A corner kick can only go straight in if it swings: its straight way is off the field."""
    if kind != "corner_kick" or cast.fact("line") != "opp" or cast.fact("mouth") != "in":
        return None
    return cast.ground.opp(cast.ground.across(0.1), cast.ground.goal_area * 1.8)


def _far_from_own_goal(cast: Cast, kind: str) -> Point | None:
    """A free kick, throw-in or dropped ball that ends in the own goal is taken near it."""
    ground = cast.ground
    if cast.fact("line") != "own":
        return None
    match kind:
        case "throw_in":
            return at(-ground.half_width, ground.along(0.16))
        case "direct_free_kick" | "indirect_free_kick" | "dropped_ball":
            return ground.own(-ground.across(0.1), ground.area * 1.3)
        case _:
            return None


def _last_touch(cast: Cast, end: Point) -> Point:
    """Put who touched the ball last, and a player of the other side."""
    ground = cast.ground
    label = "touched it last"
    match (cast.fact("line"), cast.fact("sent")):
        case ("touch", _):
            cast.put(ground.by(end, -8.5, 3.4), "B")
            return cast.put(ground.by(end, -4.5, -6.5), "A", label)
        case ("own", _):
            cast.put(ground.own(-ground.across(0.06), ground.area * 0.95), "B")
            return cast.put(ground.own(ground.across(0.02), ground.area * 0.7), "A", label)
        case (_, "keeper_throw"):
            start = ground.own(ground.half_goal * 0.6, ground.area * 0.7)
            return cast.put(start, "A", "goalkeeper throws", "keeper")
        case _:
            start = ground.opp(-ground.across(0.08), ground.area * 0.85)
            cast.put(ground.opp(ground.across(0.13), ground.area * 0.6), "B")
            return cast.put(start, "A", "shoots")


def _beaten_keeper(cast: Cast) -> None:
    if not any(figure.role == "keeper" and figure.team == "B" for figure in cast.figures):
        ground = cast.ground
        where = ground.by(ground.opp(-ground.half_goal * 0.75, 0), 0.0, -1.2)
        if cast.fact("kind") == "penalty_kick":
            where = ground.opp(-ground.half_goal * 0.5, 0)
        cast.put(where, "B", role="keeper")
