"""Stages offside, outsiders, players who leave or come on, and conduct."""

from wholeball.pitch.shapes import Point, at
from wholeball.training.cast import Cast
from wholeball.training.restarts import set_up
from wholeball.training.where import dropped_from, where


def offside(cast: Cast) -> None:
    """Stage a pass, its receiver, and the second-last opponent on the offside line."""
    ground = cast.ground
    is_short = cast.fact("ahead") == "short"
    depth = max(ground.along(0.16), ground.area * (1.1 if is_short else 0.8))
    depth += round(ground.body * 3.4) if is_short else 0
    last = cast.put(ground.opp(-ground.across(0.02), depth), "B", "second-last opponent")
    is_ahead = cast.fact("ahead") != "no"
    receiver = ground.opp(ground.across(0.16), depth - (ground.body * 3.4 if is_ahead else 0))
    if cast.fact("goal_area") == "opp":
        receiver = ground.opp(ground.half_goal + ground.body, ground.goal_area * 0.6)
    cast.put(ground.by(ground.opp(0, 0), -1.0, -1.2), "B", role="keeper")
    cast.culprit = cast.put(receiver, "A", "receiver")
    cast.offside = last
    start = _passed_from(cast)
    part = cast.fact("part")
    feet = ground.by(receiver, -1.95, 0.0)
    if part in ("opponent_played", "opponent_handled"):
        between = cast.put(ground.opp(ground.across(0.05), depth + ground.body * 5), "B")
        start = cast.send(start, ground.by(between, 1.6, 0.0))
    if part in ("none", "hinders"):
        mate = cast.put(ground.opp(-ground.across(0.2), depth + ground.body * 1.5), "A", "mate")
        feet = cast.send(start, ground.by(mate, -0.3, 1.6))
        cast.event = ground.by(receiver, -1.95, 0.0) if part == "hinders" else feet
    else:
        cast.event = cast.send(start, feet)
    if cast.fact("goal_area") == "own":
        cast.event = cast.run(receiver, where(cast))
    if cast.fact("scored") == "yes":
        cast.send(feet, ground.opp(ground.half_goal * 0.7, -ground.body))


def _passed_from(cast: Cast) -> Point:
    kind = cast.fact("kind")
    if kind:
        return set_up(cast, kind)
    ground = cast.ground
    if cast.fact("ahead") in ("at_first", "at_last"):
        place = ground.own(-ground.half_area * 0.3, ground.area * 0.8)
        return cast.put(place, "A", "goalkeeper throws", "keeper")
    return cast.put(ground.opp(-ground.across(0.16), ground.along(0.33)), "A", "passes")


def outsider(cast: Cast) -> None:
    """Stage an official, a stranger or a person too many that meets the ball."""
    if cast.fact("kind") == "penalty_kick":
        _stranger_at_penalty(cast)
        return
    ground = cast.ground
    effect, person = cast.fact("effect"), cast.fact("person")
    place = where(cast)
    if effect in ("in_goal", "in_hampered", "in_free"):
        place = ground.opp(ground.across(0.06), ground.area * 0.6)
    elif effect == "leaving" and cast.fact("place") != "own_area":
        place = at(ground.half_width - ground.body, ground.along(0.44))
    elif cast.fact("ball_at") in ("own_area", "opp_area"):
        place = dropped_from(cast) or place
    elif person == "official" or effect == "none":
        place = at(-ground.across(0.05), ground.along(0.62))
    cast.event = place
    if person == "official":
        who = cast.put(ground.by(place, 1.3, -1.2), None, "official", "trail")
    elif person == "agent":
        who = cast.put(ground.by(place, 1.5, 1.2), None, "stranger", "other")
    else:
        who = cast.put(ground.by(place, 1.5, 1.2), "A", "too many", "other")
        cast.culprit = who
    passer = cast.put(ground.by(place, -5.5, -6.0), "A", "plays it")
    cast.send(passer, place)
    _onward(cast, place, effect)


def _onward(cast: Cast, place: Point, effect: str) -> None:
    ground = cast.ground
    if effect in ("in_goal", "in_hampered", "in_free"):
        defender = cast.put(
            ground.opp(-ground.half_goal * 0.7, ground.body * 4), "B", "defender"
        )
        if effect == "in_hampered":
            cast.run(defender, ground.by(place, -1.8, 1.8))
        cast.send(place, ground.opp(-ground.half_goal * 0.1, -ground.body))
    elif effect in ("attack", "turnover"):
        team = "A" if effect == "attack" else "B"
        mate = cast.put(ground.by(place, -4.5, 4.0), "A" if team == "A" else "B")
        cast.event = cast.send(place, ground.by(mate, 1.2, -1.6))


def _stranger_at_penalty(cast: Cast) -> None:
    ground = cast.ground
    ball = set_up(cast, "penalty_kick")
    goal = ground.opp(0, 0)
    keeper = cast.put(ground.opp(-ground.half_goal * 0.3, 0), "B", role="keeper")
    if cast.fact("flight") == "rebound":
        back = cast.send(ball, ground.by(keeper, 1.6, -1.0))
        place = cast.send(back, ground.opp(ground.across(0.1), ground.area * 0.6))
    else:
        place = cast.send(ball, ground.opp(ground.half_goal * 0.4, ground.mark * 0.45))
    cast.put(ground.by(place, 1.6, 0.6), None, "stranger", "other")
    cast.event = place
    if cast.fact("flight") == "forward_in":
        cast.send(place, ground.by(goal, 2.2, 1.0))


def bounds(cast: Cast) -> None:
    """Stage a player who crosses a line of the field, and where the ball was meanwhile."""
    ground = cast.ground
    line = at(ground.half_width, ground.along(0.42))
    cast.ball = cast.event = at(-ground.across(0.12), ground.along(0.42))
    match cast.fact("move"):
        case "offside_trap":
            start = ground.own(ground.half_goal * 0.8, ground.body * 2.2)
            out = ground.own(ground.half_goal * 0.8, -ground.body * 1.6)
            cast.put(ground.own(-ground.across(0.1), ground.area * 0.6), "B", "attacker")
            cast.ball = cast.event = ground.own(-ground.across(0.2), ground.area * 1.3)
        case "swap":
            start = ground.own(ground.across(0.12), ground.area * 0.9)
            out = ground.own(ground.half_goal * 0.9, ground.body * 3)
            keeper = cast.put(ground.own(0, ground.body * 1.3), "A", "goalkeeper", "keeper")
            cast.run(keeper, ground.by(start, -2.2, 1.0))
        case "enters":
            start, out = ground.by(line, 1.8, 0.0), ground.by(line, -3.2, 0.0)
            if cast.fact("hampers") == "yes":
                cast.event = out = where(cast)
                start = at(ground.half_width + round(ground.body * 1.8), out.y)
                cast.ball = ground.by(out, -1.0, 1.8)
        case _:
            start, out = ground.by(line, -3.2, 0.0), ground.by(line, 2.0, 0.0)
    cast.culprit = cast.put(start, "A", "offender")
    cast.run(start, out)
    cast.put(ground.by(cast.ball, -1.6, 0.6), "B")


def conduct(cast: Cast) -> None:
    """Stage what was said, shown or held up, beside the ball and an official."""
    ground, what = cast.ground, cast.fact("conduct")
    if what in ("distance", "crossed_line", "blocks_quick", "delay"):
        _before_free_kick(cast, what)
        return
    if what == "trick":
        place = ground.own(ground.half_goal * 0.6, ground.area * 0.6)
        keeper = cast.put(ground.by(place, 0.0, -1.8), "A", "goalkeeper", "keeper")
        start = ground.by(place, -5.0, 4.0)
        if cast.fact("goal_area") in ("own", "opp"):
            start = ground.by(where(cast), -1.8, 0.6)
        cast.culprit = flicks = cast.put(start, "A", "flicks it up and heads it")
        cast.send(flicks, ground.by(keeper, 0.3, 1.8), in_air=True)
        cast.event = ground.by(flicks, 1.8, -0.6)
        return
    place = at(ground.across(0.08), ground.along(0.45))
    if cast.fact("goal_area") in ("own", "opp"):
        place = where(cast)
    offender = cast.put(ground.by(place, -1.8, 0.0), "A", "offender")
    cast.culprit, cast.event = offender, place
    cast.ball = place
    if cast.fact("moment") == "open":
        cast.ball = at(-ground.across(0.2), ground.along(0.5))
    else:
        cast.event = cast.ball = at(-ground.across(0.15), ground.along(0.5))
    if what not in ("joy", "too_much_joy", "slow_off", "stays_on", "minor"):
        cast.put(ground.by(place, -4.6, -1.8), None, "official", "trail")


def _before_free_kick(cast: Cast, what: str) -> None:
    """Stage a free kick of the other side that side A does not keep its distance from."""
    ground = cast.ground
    ball = ground.own(-ground.across(0.1), ground.area * 1.45)
    cast.ball = cast.event = ball
    cast.taker_side = "B"
    cast.put(ground.by(ball, 0.6, 2.2), "B", "kicker")
    if what == "delay":
        cast.culprit = cast.put(ground.by(ball, 2.0, -1.4), "A", "delays")
        return
    stands = (
        ground.by(ball, 1.2, -3.4) if what != "blocks_quick" else ground.by(ball, 1.9, -1.0)
    )
    cast.culprit = cast.put(stands, "A", "too near")
