"""Fills a scene up with goalkeepers, further players and the two officials."""

from collections.abc import Iterator, Mapping
from typing import Final

from wholeball.pitch.areas import Side, goal_area, penalty_area
from wholeball.pitch.distances import may_stand_at_penalty
from wholeball.pitch.shapes import Box, Point, at, distance_squared, is_in
from wholeball.training.cast import Cast
from wholeball.training.scene import Arrow, Figure, Team

ENOUGH: Final = 4
"""Outfield players a side in a scene, those of the situation included."""
TRIES: Final = 160
_STEP_X: Final = 0.7548776662466927
_STEP_Y: Final = 0.5698402909980532
"""Steps that spread points evenly over a rectangle, in the same order every time (R2 sequence,
Roberts 2018, from memory)."""
APART: Final = 2.7
FROM_ARROWS: Final = 1.9
FROM_EVENT: Final = 4.5
"""Bodies between those who are only there and what the situation is about."""


def fill_up(cast: Cast, view: Box, top: Side, taken: tuple[Point, ...]) -> None:
    """Add who else is there; `taken` are places that must stay free, such as the restart's."""
    for team, end in (("A", Side.OWN), ("B", Side.OPPONENTS)):
        _keeper(cast, "A" if team == "A" else "B", end, view)
    _officials(cast, view, top, taken)
    for place in _spread(view):
        if _is_in_the_way(cast, place):
            continue
        for team in _first(cast, place):
            if _count(cast, team) < ENOUGH and _may_stand(cast, team, place, view, taken):
                cast.put(place, team)
                break


def _is_in_the_way(cast: Cast, place: Point) -> bool:
    """Leave room round what the situation is about, and beside whoever is named."""
    body = cast.ground.body
    if distance_squared(place, cast.event) < (FROM_EVENT * body) ** 2:
        return True
    named = [one for one in cast.figures if one.label]
    rooms = [(cast.event, 13, 3), *((one.at, 3 + 0.8 * len(one.label), 2) for one in named)]
    return any(
        abs(place.x - one.x) < wide * body and abs(place.y - one.y) < high * body
        for one, wide, high in rooms
    )


def _keeper(cast: Cast, team: Team, end: Side, view: Box) -> None:
    ground = cast.ground
    if any(figure.role == "keeper" and figure.team == team for figure in cast.figures):
        return
    ahead = ground.body * 1.4
    if cast.fact("kind") == "penalty_kick" and team == "B":
        ahead = 0
    for share in (0.0, -0.5, 0.5, -0.9, 0.9):
        x = ground.half_goal * share
        place = ground.own(x, ahead) if end is Side.OWN else ground.opp(x, ahead)
        if is_in(view, place) and _is_free(cast, place, (), FROM_ARROWS):
            cast.put(place, team, role="keeper")
            return


def _first(cast: Cast, place: Point) -> tuple[Team, ...]:
    """Who defends goes first near the own goal, and who has fewer players elsewhere."""
    length = cast.ground.plan.length
    if place.y > length * 0.72:
        return ("B", "A")
    if place.y < length * 0.28:
        return ("A", "B")
    return ("A", "B") if _count(cast, "A") <= _count(cast, "B") else ("B", "A")


def _count(cast: Cast, team: Team) -> int:
    return sum(figure.team == team and figure.role == "player" for figure in cast.figures)


def _spread(view: Box) -> Iterator[Point]:
    for index in range(1, TRIES):
        x = (0.5 + index * _STEP_X) % 1
        y = (0.5 + index * _STEP_Y) % 1
        yield at(
            round(view.left + (view.right - view.left) * x),
            round(view.near + (view.far - view.near) * y),
        )


def _may_stand(
    cast: Cast, team: Team, place: Point, view: Box, taken: tuple[Point, ...]
) -> bool:
    ground, plan = cast.ground, cast.ground.plan
    margin = round(ground.body * 1.4)
    inside = (
        max(view.left, -ground.half_width) + margin <= place.x
        and place.x <= min(view.right, ground.half_width) - margin
        and max(view.near, 0) + margin <= place.y <= min(view.far, plan.length) - margin
    )
    areas = [goal_area(plan, end) for end in Side]
    return (
        inside
        and not any(area is not None and is_in(area, place) for area in areas)
        and _is_free(cast, place, taken, FROM_ARROWS)
        and _is_on_side(cast, team, place)
        and _keeps_away(cast, team, place)
    )


def _is_on_side(cast: Cast, team: Team, place: Point) -> bool:
    """Keep players behind the ball as it lay first, so that nobody else looks offside."""
    balls = [arrow.start for arrow in cast.arrows if arrow.of == "ball"]
    first = balls[0] if balls else cast.ball
    if cast.offside is not None:
        return place.y <= cast.offside.y - (0 if team == "B" else cast.ground.body)
    if cast.is_clear and place.y < cast.event.y + cast.ground.body * 2:
        return False
    if team == "A":
        return place.y <= max(first.y, cast.ground.plan.length // 2)
    return place.y >= min(first.y, cast.ground.plan.length // 2)


def _keeps_away(cast: Cast, team: Team, place: Point) -> bool:
    """Let nobody but those of the situation be out of place while a restart is taken."""
    if cast.taker_side is None:
        return True
    plan, kind = cast.ground.plan, cast.fact("kind")
    if kind == "penalty_kick" or cast.fact("last_kick") == "penalty":
        return may_stand_at_penalty(place, plan, end=Side.OPPONENTS)
    if kind == "kick_off":
        is_own = place.y < plan.length / 2 if team == "A" else place.y > plan.length / 2
        return is_own and _is_far(cast, team, place, plan.distances.kick_off)
    area = penalty_area(plan, Side.OWN)
    if kind == "goal_kick" and area is not None and team == "B":
        return not is_in(area, place)
    least: Mapping[str, int] = {
        "throw_in": plan.distances.throw_in,
        "corner_kick": plan.distances.corner + plan.corner_radius,
        "dropped_ball": plan.distances.dropped_ball,
    }
    everybody = kind == "dropped_ball"
    return _is_far(
        cast, team, place, least.get(kind, plan.distances.free_kick), everybody=everybody
    )


def _is_far(
    cast: Cast, team: Team, place: Point, least: int, *, everybody: bool = False
) -> bool:
    if team == cast.taker_side and not everybody:
        return True
    balls = [arrow.start for arrow in cast.arrows if arrow.of == "ball"]
    ball = balls[0] if balls else cast.ball
    return distance_squared(place, ball) >= (least + cast.ground.body) ** 2


def _is_free(cast: Cast, place: Point, taken: tuple[Point, ...], from_arrows: float) -> bool:
    body = cast.ground.body
    if any(distance_squared(place, figure.at) < (APART * body) ** 2 for figure in cast.figures):
        return False
    if any(distance_squared(place, one) < (2.4 * body) ** 2 for one in (*taken, cast.ball)):
        return False
    return all(_from_arrow(place, arrow) >= from_arrows * body for arrow in cast.arrows)


def _from_arrow(place: Point, arrow: Arrow) -> float:
    """Return how far a place is from an arrow; a bent one is taken as three straight pieces."""
    if arrow.via is None:
        return _from_line(place, arrow.start, arrow.end)
    start, via, end = arrow.start, arrow.via, arrow.end
    one = at((start.x + via.x * 2) // 3, (start.y + via.y * 2) // 3)
    two = at((end.x + via.x * 2) // 3, (end.y + via.y * 2) // 3)
    pieces = ((start, one), (one, two), (two, end))
    return min(_from_line(place, first, last) for first, last in pieces)


def _from_line(place: Point, start: Point, end: Point) -> float:
    along_x, along_y = end.x - start.x, end.y - start.y
    length = along_x**2 + along_y**2
    share = 0.0
    if length:
        towards = (place.x - start.x) * along_x + (place.y - start.y) * along_y
        share = min(max(towards / length, 0.0), 1.0)
    x = start.x + share * along_x - place.x
    y = start.y + share * along_y - place.y
    return float((x**2 + y**2) ** 0.5)


def _officials(cast: Cast, view: Box, top: Side, taken: tuple[Point, ...]) -> None:
    """Put the lead beside the goal that is attacked and the trail behind play, across from it."""
    ground = cast.ground
    goal_side = 1 if top is Side.OPPONENTS else -1
    edge = min(view.right, ground.half_width + round(ground.body * 2.6)) - ground.body * 1.5
    side = -1 if cast.event.x > 0 else 1
    front = view.far if goal_side > 0 else view.near
    line = min(max(cast.event.y, 0), ground.plan.length)
    if cast.offside is not None:
        line = cast.offside.y
    start = line if cast.offside else (line + front) / 2
    lead = [
        at(round(sign * edge), round(start - goal_side * step * ground.body))
        for step in range(20)
        for sign in (side, -side)
    ]
    ends = [end for arrow in cast.arrows for end in (arrow.start, arrow.end)]
    line_of_goal = ground.plan.length if top is Side.OPPONENTS else 0
    edge_of_area = line_of_goal - goal_side * round(ground.area * 1.1)
    behind = min(
        goal_side * edge_of_area,
        *(goal_side * one.y for one in (*ends, cast.ball, cast.event)),
    )
    trail = [
        at(
            round(-sign * view.right * share),
            round(goal_side * (behind - (3.0 - step * 0.8) * ground.body)),
        )
        for step in range(14)
        for sign in (side, -side)
        for share in (0.45, 0.3, 0.6)
    ]
    apart = [one for one in trail if not _is_in_the_way(cast, one)]
    if not any(figure.role == "trail" for figure in cast.figures):
        _first_free(cast, "trail", [*apart, *trail, *_spread(view)], view, taken)
    _first_free(cast, "lead", lead, view, taken)


def _first_free(
    cast: Cast, role: str, places: list[Point], view: Box, taken: tuple[Point, ...]
) -> None:
    margin = round(cast.ground.body * 1.3)
    for place in places:
        is_seen = (
            view.left + margin <= place.x <= view.right - margin
            and view.near + margin <= place.y <= view.far - margin
        )
        if is_seen and _is_free(cast, place, taken, FROM_ARROWS):
            cast.figures.append(
                Figure(role="lead" if role == "lead" else "trail", team=None, at=place)
            )
            return
