"""Stages fouls, handball, and what goalkeepers do with their hands."""

from typing import Final

from wholeball.pitch.shapes import Point, at
from wholeball.training.cast import Cast
from wholeball.training.scene import Role
from wholeball.training.where import dropped_from, where

_RUNS: Final = frozenset({"graded", "violent", "risky", "slide", "at_feet"})
_OFFENDER: Final = {
    "slide": "slides",
    "at_feet": "goalkeeper",
    "hinder_keeper": "offender",
    "shield": "shields the ball",
}


def foul(cast: Cast) -> None:
    """Stage an offender and who was fouled, at the place of the offence."""
    ground, what = cast.ground, cast.fact("foul")
    place = where(cast)
    cast.event = place
    if cast.fact("moment") != "open":
        cast.ball = cast.event = at(-ground.across(0.22), ground.along(0.62))
    cast.is_clear = cast.fact("chance") == "obvious"
    role: Role = "keeper" if what == "at_feet" or cast.fact("who") == "keeper" else "player"
    label = _OFFENDER.get(what, "offender")
    if what == "object":
        _throws(cast, place)
        return
    is_running = what in _RUNS
    offender = ground.by(place, *((-4.6, 2.2) if is_running else (-1.95, 0.3)))
    cast.culprit = cast.put(offender, "A", label, role)
    _fouled(cast, ground.by(place, 1.95, 0.6))
    if cast.fact("moment") == "open":
        cast.ball = ground.by(place, 2.3, -1.4)
    dropped = dropped_from(cast)
    if dropped is not None:
        cast.ball = cast.event = dropped
    if is_running:
        cast.run(offender, ground.by(place, -0.8, 0.2))
    if cast.fact("advantage") in ("yes", "quick"):
        mate = cast.put(ground.by(place, 6.5, -6.0), "B")
        cast.send(cast.ball, ground.by(mate, -1.3, 1.0))


def _fouled(cast: Cast, place: Point) -> None:
    match cast.fact("against"):
        case "own_side":
            cast.put(place, "A", "own player")
        case "official":
            cast.put(place, None, "official", "trail")
        case "stranger":
            cast.put(place, None, "stranger", "other")
        case _ if cast.fact("foul") == "hinder_keeper":
            cast.other = cast.put(place, "B", "goalkeeper", "keeper")
        case _:
            cast.other = cast.put(place, "B", "opponent")


def _throws(cast: Cast, place: Point) -> None:
    """Stage a thrown object: what it struck stands where it struck."""
    ground = cast.ground
    thrower = cast.put(ground.by(place, -7.5, 2.0), "A", "throws an object")
    cast.culprit = thrower
    cast.run(thrower, ground.by(place, -0.8, 0.2))
    if cast.fact("against") == "the_ball":
        cast.ball = place
        cast.put(ground.by(place, 2.6, 1.0), "B", "opponent")
        return
    _fouled(cast, ground.by(place, 1.95, 0.3))
    if cast.fact("moment") == "open":
        cast.ball = ground.by(place, 6.0, -3.0)


def handling(cast: Cast) -> None:
    """Stage a ball that meets an arm, near the goal it goes into where it does."""
    ground = cast.ground
    if cast.fact("arm") == "to_score" or cast.fact("net") in ("self", "mate"):
        _handled_at_goal(cast)
        return
    if cast.fact("who") == "keeper":
        is_far = cast.fact("goal_area") == "opp"
        outside = ground.own(ground.half_area * 0.25, ground.area + 2.4 * ground.body)
        place = where(cast) if is_far else outside
        handler = cast.put(ground.by(place, -0.2, -1.95), "A", "goalkeeper", "keeper")
    else:
        place = where(cast)
        if cast.fact("net") == "own":
            place = ground.own(ground.half_area * 0.3, ground.goal_area * 1.2)
        handler = cast.put(ground.by(place, -1.95, -0.4), "A", "ball meets arm")
    cast.culprit, cast.event = handler, place
    cast.is_clear = cast.fact("chance") == "obvious"
    kicker = cast.put(ground.by(place, 4.0, 6.5), "B", "kicks")
    cast.send(kicker, place, in_air=True)
    if cast.fact("net") == "own":
        cast.send(place, ground.own(ground.half_goal * 0.4, -ground.body))
    elif cast.fact("advantage") == "yes":
        mate = cast.put(ground.by(place, 7.5, 1.0), "B")
        cast.send(place, ground.by(mate, -1.6, 0.0))


def _handled_at_goal(cast: Cast) -> None:
    ground = cast.ground
    far = max(ground.goal_area * 1.25, ground.body * 5)
    depth = ground.goal_area * 0.65 if cast.fact("goal_area") == "opp" else far
    place = ground.opp(ground.across(0.05), depth)
    crosser = cast.put(ground.opp(-ground.half_area * 0.85, ground.area * 0.8), "A")
    cast.send(crosser, place, in_air=True)
    handler = cast.put(ground.by(place, 1.95, -0.6), "A", "ball meets arm")
    cast.culprit, cast.event = handler, place
    start = place
    if cast.fact("net") == "mate":
        mate = ground.by(place, -4.6, 0.4)
        start = cast.send(place, ground.by(mate, 1.6, 0.4))
        cast.put(mate, "A", "scores")
    cast.send(start, ground.opp(-ground.half_goal * 0.4, -ground.body))


def keeper_hands(cast: Cast) -> None:
    """Stage a goalkeeper who handles in the own penalty area."""
    ground = cast.ground
    between = (ground.goal_area + ground.area) / 2
    place = (
        where(cast)
        if cast.fact("goal_area") == "own"
        else ground.own(ground.half_goal * 0.5, between)
    )
    hands = cast.fact("hands")
    cast.ball = cast.event = place
    label = {"too_long": "holds too long", "again": "takes it again"}.get(hands, "goalkeeper")
    keeper = cast.put(ground.by(place, -1.95, 0.0), "A", label, "keeper")
    cast.culprit = keeper
    cast.put(ground.by(place, 4.0, 3.6), "B")
    if hands == "again":
        out = ground.by(place, 3.0, 6.0)
        cast.ball = place
        cast.send(keeper, out)
        cast.send(out, place)
    elif hands == "received":
        _sent_back(cast, place)
    elif hands == "sent_far":
        cast.send(keeper, ground.opp(-ground.across(0.1), ground.along(0.36)), in_air=True)


def _sent_back(cast: Cast, place: Point) -> None:
    ground = cast.ground
    if cast.fact("source") == "throw":
        line = at(ground.half_width, place.y + ground.body * 4)
        thrower = cast.put(ground.by(line, 1.2, 0.0), "A", "thrower")
        cast.send(thrower, place, in_air=True)
    else:
        label = "kicks back" if cast.fact("source") == "kick" else "heads back"
        start = cast.put(ground.by(place, -4.0, 6.0), "A", label)
        if cast.fact("cleared") == "yes":
            start = cast.send(start, ground.by(place, 1.5, 3.0))
        cast.send(start, place, in_air=label == "heads back")
