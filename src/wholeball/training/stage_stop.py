"""Stages stops without an offence, a goal with a person too many, and the end of time."""

from typing import Final

from wholeball.pitch.shapes import Point, at
from wholeball.training.cast import Cast
from wholeball.training.restarts import set_up
from wholeball.training.where import dropped_from

_HURT: Final = {"injury": "hurt", "head": "head injury suspected", "blood": "bleeding"}


def stop(cast: Cast) -> None:
    """Stage where the ball was when play was stopped, and for whom."""
    ground = cast.ground
    kind = cast.fact("kind")
    if kind:
        place = set_up(cast, kind)
    else:
        place = dropped_from(cast) or at(ground.across(0.1), ground.along(0.52))
        _last_touch(cast, place)
        cast.event = place
    if cast.fact("would") == "other":
        cast.put(ground.by(place, 2.6, 1.6), "B", "about to get it")
    reason = cast.fact("reason")
    if reason == "frame":
        cast.put(
            ground.opp(ground.half_goal, -ground.body * 1.2), None, "frame broken", "other"
        )
    elif reason in _HURT:
        keeper = cast.fact("hurt") == "keeper"
        if keeper:
            cast.put(ground.own(0, ground.body * 2.5), "A", _HURT[reason], "keeper")
        else:
            cast.put(ground.by(place, 6.0, -2.0), "A", _HURT[reason])
            cast.put(ground.by(place, 8.4, -1.6), "B")


def _last_touch(cast: Cast, place: Point) -> None:
    """Put who touched the ball last, in the area that a fact names."""
    ground = cast.ground
    depth = (ground.goal_area + ground.area) / 2
    match cast.fact("last_at"):
        case "own_area":
            start = ground.own(-ground.half_area * 0.4, depth)
        case "opp_area":
            start = ground.opp(-ground.half_area * 0.4, depth)
        case _:
            start = ground.by(place, -5.5, -3.0)
    cast.put(start, "A", "touched it last")
    cast.send(start, place)


def extra_at_goal(cast: Cast) -> None:
    """Stage a goal, and the person too many on the field."""
    ground = cast.ground
    shooter = cast.put(ground.opp(-ground.across(0.1), ground.area * 0.9), "A", "scores")
    place = ground.opp(ground.across(0.3), ground.area * 0.8)
    if cast.fact("interfered") == "yes":
        place = ground.opp(ground.across(0.1), ground.area * 0.55)
    of = cast.fact("extra_of")
    if of == "nobody":
        cast.put(place, None, "stranger", "other")
    else:
        who = cast.put(place, "A" if of == "scorers" else "B", "too many", "other")
        cast.culprit = who
    cast.send(shooter, ground.opp(-ground.half_goal * 0.45, -ground.body))
    cast.event = ground.by(place, -1.8, -0.2)


def time_up(cast: Cast) -> None:
    """Stage the moment when the time of a period is up."""
    ground = cast.ground
    if cast.fact("last_kick") == "penalty":
        set_up(cast, "penalty_kick")
        cast.put(ground.opp(0, 0), "B", role="keeper")
        return
    place = at(ground.across(0.1), ground.along(0.62))
    if cast.fact("last_kick") == "chance":
        place = ground.opp(ground.across(0.08), ground.area * 0.9)
    cast.put(ground.by(place, -1.5, -0.6), "A", "has the ball")
    cast.ball = cast.event = place
