"""Stages how a restart was taken, and who was too near."""

from wholeball.pitch.shapes import Point, at
from wholeball.training.cast import Cast
from wholeball.training.restarts import set_up, wall
from wholeball.training.where import where


def form(cast: Cast) -> None:
    """Stage a restart and what its taker did."""
    flaw, kind, ground = cast.fact("flaw"), cast.fact("kind"), cast.ground
    own = kind == "goal_kick" or flaw == "inside"
    in_own = cast.fact("goal_area") == "own" or cast.fact("zone") == "own_area"
    ball = set_up(cast, kind, spot=_spot(cast, is_own=own or in_own))
    if kind == "penalty_kick":
        cast.put(ground.opp(-ground.half_goal * 0.2, 0), "B", role="keeper")
    target = _target(cast, ball)
    taker = cast.culprit or ball
    match flaw:
        case "twice" | "twice_hand":
            end = _touched_again(cast, ball)
            cast.send(ball, end)
            cast.run(taker, ground.by(end, -1.5, -0.7))
            cast.event = end
        case "place" | "place_to_delay":
            inward = -5.0 if kind == "corner_kick" else 5.0
            cast.ball = ground.by(ball, 0.0, inward)
            for index, figure in enumerate(cast.figures):
                if figure.at == taker:
                    del cast.figures[index]
                    break
            moved = ground.by(taker, 0.0, inward)
            cast.culprit = cast.put(moved, "A", "wrong place")
            cast.send(cast.ball, target)
        case "countdown" | "slow" | "absent":
            pass
        case _:
            cast.send(ball, target, in_air=kind == "throw_in")


def _spot(cast: Cast, *, is_own: bool) -> Point | None:
    ground, kind = cast.ground, cast.fact("kind")
    if not is_own or kind == "goal_kick":
        return None
    match kind:
        case "throw_in":
            return at(-ground.half_width, ground.along(0.16))
        case "direct_free_kick" | "indirect_free_kick":
            return ground.own(-ground.half_goal * 0.9, ground.goal_area * 1.3)
        case _:
            return None


def _touched_again(cast: Cast, ball: Point) -> Point:
    ground = cast.ground
    goal_area, zone = cast.fact("goal_area"), cast.fact("zone")
    if goal_area in ("own", "opp") or zone == "own_area":
        return where(cast)
    if cast.fact("kind") == "throw_in":
        return ground.by(ball, 4.6, 2.0)
    if cast.fact("kind") == "corner_kick":
        return ground.by(ball, -4.5, -2.0)
    if cast.fact("kind") == "goal_kick":
        return ground.own(ball.x, ground.area + 3 * ground.body)
    if cast.fact("kind") == "penalty_kick":
        return ground.by(ball, 1.4, 1.6 if ground.mark < 6 * ground.body else 2.6)
    return ground.by(ball, 3.8, 5.0)


def _target(cast: Cast, ball: Point) -> Point:
    """Return where the ball goes: what was wrong with it first, else by the restart."""
    ground = cast.ground
    by_flaw = {
        "backward": ground.by(ball, 3.2, -4.4),
        "not_in": ground.by(ball, -0.9, 8.0),
        "inside": ground.by(ball, -4.5, 2.0),
        "too_far": at(-ground.across(0.1), ground.along(0.64)),
    }
    by_kind = {
        "throw_in": ground.by(ball, 9.0, 3.0),
        "penalty_kick": ground.opp(ground.half_goal * 0.55, -ground.body),
        "corner_kick": ground.opp(ground.half_goal, ground.goal_area),
        "goal_kick": ground.own(ground.across(0.16), ground.area * 1.7),
        "dropped_ball": ground.by(ball, -1.0, 1.4),
    }
    wrong = by_flaw.get(cast.fact("flaw"))
    return wrong or by_kind.get(cast.fact("kind"), ground.by(ball, 4.5, 6.0))


def near(cast: Cast) -> None:
    """Stage who was too near, or out of place, when a restart was taken."""
    kind = cast.fact("kind")
    ball = set_up(cast, kind, spot=_near_goal(cast))
    match kind:
        case "penalty_kick":
            _at_penalty(cast, ball)
        case "direct_free_kick" | "indirect_free_kick":
            _at_free_kick(cast, ball)
        case _:
            _close_by(cast, kind, ball)


def _near_goal(cast: Cast) -> Point | None:
    """Return a free kick so near that the wall stands in the goal area, if that is said."""
    ground = cast.ground
    if cast.fact("wall") != "yes" or cast.fact("goal_area") != "opp":
        return None
    return ground.opp(0, ground.plan.distances.free_kick * 1.04 + ground.goal_area * 0.55)


def _at_penalty(cast: Cast, ball: Point) -> None:
    ground, by = cast.ground, cast.fact("by")
    goal = ground.opp(0, 0)
    keeper = cast.put(goal, "B", "goalkeeper" if by.startswith("keeper") else "", "keeper")
    edge = ground.area + ground.body * 1.6
    if by in ("own", "both"):
        runner = cast.put(ground.opp(-ground.half_area * 0.78, edge), "A", "too early")
        cast.run(runner, ground.opp(-ground.half_area * 0.5, ground.area * 0.72))
    if by in ("opp", "both"):
        runner = cast.put(ground.opp(ground.half_area * 0.78, edge), "B", "too early")
        cast.run(runner, ground.opp(ground.half_area * 0.5, ground.area * 0.72))
        cast.other = runner
    if by.startswith("keeper"):
        cast.run(keeper, ground.opp(0, ground.body * 2.6))
        cast.other = keeper
    if by == "keeper_and_taker" and cast.culprit is not None:
        cast.run(cast.culprit, ground.by(ball, -0.2, -0.9))
    post = ground.half_goal
    if cast.fact("result") == "goal":
        cast.send(ball, ground.opp(post * 0.65, -ground.body))
    elif cast.fact("saved") in ("missed", "affected"):
        cast.send(ball, ground.opp(post * 1.3, -ground.body))
    else:
        cast.send(ball, ground.opp(post * 0.45, ground.body * 1.6))


def _at_free_kick(cast: Cast, ball: Point) -> None:
    ground, how = cast.ground, cast.fact("how_near")
    target = ground.opp(ground.half_goal * 0.5, ground.body * 2)
    if cast.fact("by") == "own":
        places = wall(cast, ball)
        beside = places[-1] if cast.fact("wall") == "yes" else ground.by(places[-1], -6.0, 1.0)
        step = ground.by(beside, -2.3, -0.1)
        beside_ball = cast.fact("goal_area") == "opp"
        if beside_ball:
            step = ground.by(places[0], 2.3, 0.1)
        label = "at the wall" if cast.fact("wall") == "yes" else ""
        cast.culprit = cast.put(step, "A", label)
        cast.event = ground.by(step, *((1.9, 0.0) if beside_ball else (-0.2, -1.9)))
        cast.send(ball, target)
        return
    match how:
        case "on_line":
            for side in (-1.5, 1.5):
                cast.put(ground.opp(ground.body * side, 0), "B")
            cast.put(ground.opp(0, ground.body * 2.4), "B", role="keeper")
        case "no_time" | "challenges":
            opponent = cast.put(ground.by(ball, 3.0, 2.6), "B", "too near")
            if how == "challenges":
                cast.run(opponent, ground.by(ball, 1.2, 0.8))
        case _:
            opponent = cast.put(ground.by(ball, 2.2, 3.6), "B", "too near")
            cast.other = opponent
            if how == "quick":
                cast.send(ball, ground.by(opponent, -0.6, -1.4))
                return
            wall(cast, ball)
    cast.send(ball, target)


def _close_by(cast: Cast, kind: str, ball: Point) -> None:
    """Stage an opponent, or one of the own side, who is where nobody may be."""
    ground = cast.ground
    match kind:
        case "kick_off":
            _in_wrong_half(cast, ball)
        case "throw_in":
            cast.other = cast.put(ground.by(ball, 1.3, 0.2), "B", "too near")
            if cast.fact("thrown") == "yes":
                cast.send(ball, ground.by(ball, 8.0, 5.0), in_air=True)
        case "goal_kick":
            place = ground.own(-ground.across(0.08), ground.area * 0.8)
            opponent = cast.put(place, "B", "too near")
            if cast.fact("how_near") == "challenges":
                cast.run(opponent, ground.by(ball, -2.0, 2.0))
            cast.send(ball, ground.own(ground.across(0.16), ground.area * 0.85))
        case "corner_kick":
            cast.other = cast.put(ground.by(ball, -3.6, -1.0), "B", "too near")
            is_cut_off = cast.fact("how_near") == "quick"
            far = ground.opp(ground.half_goal * 0.5, ground.goal_area)
            cast.send(ball, ground.by(ball, -2.3, -0.6) if is_cut_off else far, in_air=True)
        case _:
            _near_dropped(cast, ball)


def _in_wrong_half(cast: Cast, ball: Point) -> None:
    ground = cast.ground
    if cast.fact("by") != "own":
        cast.put(ground.by(ball, 3.5, -4.0), "B", "wrong half")
    if cast.fact("by") in ("own", "both"):
        cast.put(ground.by(ball, 3.5, 4.0), "A", "wrong half")
    cast.send(ball, ground.by(ball, -5.0, 3.0))


def _near_dropped(cast: Cast, ball: Point) -> None:
    place = cast.ground.by(ball, 0.4, -2.2)
    if cast.fact("by") == "own":
        cast.culprit = cast.put(place, "A", "too near")
    else:
        cast.other = cast.put(place, "B", "too near")
