"""Stages a restart: where the ball lies, who takes it, and who must stand where."""

from wholeball.pitch.shapes import Point, at
from wholeball.training.cast import Cast

FREE = ("direct_free_kick", "indirect_free_kick")
TAKER = {
    "throw_in": "thrower",
    "kick_off": "kicker",
    "dropped_ball": "receiver",
}


def ball_at(cast: Cast, kind: str) -> Point:
    """Return where the ball lies for a restart of side A."""
    ground = cast.ground
    inset = ground.plan.corner_radius * 0.5
    return {
        "kick_off": at(0, ground.plan.length // 2),
        "penalty_kick": ground.opp(0, ground.mark),
        "throw_in": at(-ground.half_width, ground.along(0.7)),
        "goal_kick": ground.own(ground.half_goal * 0.9, ground.goal_area * 0.9),
        "corner_kick": ground.opp(ground.half_width - inset, inset),
        "dropped_ball": at(ground.across(0.1), ground.along(0.62)),
    }.get(kind, ground.opp(-ground.across(0.1), ground.area * 1.3))


def set_up(cast: Cast, kind: str, *, spot: Point | None = None) -> Point:
    """Put the ball and its taker in place and return the ball's place."""
    ground = cast.ground
    ball = spot or ball_at(cast, kind)
    cast.ball = cast.event = ball
    cast.taker_side = "A"
    right, up = {
        "throw_in": (-1.2, -1.4),
        "corner_kick": (1.2, 0.9),
        "kick_off": (0.0, -2.0),
        "goal_kick": (0.0, -2.0),
        "dropped_ball": (-2.0, 0.0),
    }.get(kind, (-0.6, -2.2))
    if kind == "dropped_ball":
        cast.put(ground.by(ball, 2.2, 0.6), None, "", "trail")
    cast.culprit = cast.put(ground.by(ball, right, up), "A", TAKER.get(kind, "kicker"))
    return ball


def wall(cast: Cast, ball: Point, *, players: int = 3) -> list[Point]:
    """Put a wall of side B on the distance, before the nearer post; return its places."""
    ground = cast.ground
    distance = ground.plan.distances.free_kick
    goal = ground.opp(0, 0)
    length = ((goal.x - ball.x) ** 2 + (goal.y - ball.y) ** 2) ** 0.5
    ahead_x, ahead_y = (goal.x - ball.x) / length, (goal.y - ball.y) / length
    middle = (players - 1) / 2 - 1.7
    step = ground.body * 2.15
    places = [
        at(
            round(ball.x + ahead_x * distance * 1.04 - ahead_y * (index - middle) * step),
            round(ball.y + ahead_y * distance * 1.04 + ahead_x * (index - middle) * step),
        )
        for index in range(players)
    ]
    return [cast.put(place, "B") for place in places]
