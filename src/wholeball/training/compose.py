"""Composes the scene of a situation and its ruling: the same scene for the same input."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from wholeball.kernel.units import Tenths
from wholeball.pitch.areas import Side
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Box, CornerQuadrant, Disc, Point, at, distance_squared
from wholeball.pitch.spots import Place, Spot, place
from wholeball.rulings.ruling import Ruling, Situation
from wholeball.training.cast import Cast
from wholeball.training.crowd import fill_up
from wholeball.training.ground import Ground, ways_to_look
from wholeball.training.restarts import FREE
from wholeball.training.scene import Ball, Card, CloseUp, Figure, Restart, Scene
from wholeball.training.stage_ball import ball_over
from wholeball.training.stage_contact import foul, handling, keeper_hands
from wholeball.training.stage_people import bounds, conduct, offside, outsider
from wholeball.training.stage_restart import form, near
from wholeball.training.stage_stop import extra_at_goal, stop, time_up

BODIES: Final = 39
"""Radii of a figure in the width of a picture."""
_STAGED: Final[Mapping[str, Callable[[Cast], None]]] = MappingProxyType(
    {
        "ball_over": ball_over,
        "foul": foul,
        "handling": handling,
        "keeper_hands": keeper_hands,
        "offside": offside,
        "outsider": outsider,
        "bounds": bounds,
        "conduct": conduct,
        "form": form,
        "near": near,
        "extra_at_goal": extra_at_goal,
        "stop": stop,
        "time_up": time_up,
    }
)
_QUIET: Final = frozenset({"play_on", "unchanged", "natural", "kick_off", "none"})
"""Restarts for which nobody whistles to stop play (Law 5 of the Laws of the Game: after a goal,
and for a ball that left the field, no whistle is needed)."""
_CARDS: Final[Mapping[str, Card]] = MappingProxyType(
    {"caution": "yellow", "send_off": "red", "second_caution": "yellow_red"}
)
_NOTHING_RULED: Final = Ruling(answers={"restart": "none", "spot": "none"}, articles=())
_NEAR_RING: Final = ("distance", "crossed_line", "blocks_quick")


def scene_of(situation: Situation, ruling: Ruling, plan: FieldPlan, *, ball: Tenths) -> Scene:
    """Return the scene of a situation; `ball` is the radius of the ball.

    The closest look that shows the whole situation and the restart is taken. The ruling must
    be the situation's own.
    """
    known = {**situation.facts, **ruling.answers}
    looks = ways_to_look(plan)
    for top, view in looks:
        cast, restart = _staged(known, plan, view)
        if (top, view) == looks[-1] or _shows(view, cast, restart):
            return _scene(cast, restart, top, view, ball)
    raise ValueError("there is no way to look at the field")


def sketch_of(situation: Situation, plan: FieldPlan, *, ball: Tenths) -> Scene:
    """Return the scene of a situation that may lack facts: nothing ruled, no restart, no whistle.

    What was seen must be among its facts; what is not said is drawn in one of its ways,
    and no close-up names a line before somebody did.
    """
    scene = scene_of(situation, _NOTHING_RULED, plan, ball=ball)
    return scene if "line" in situation.facts else replace(scene, close_up=None)


def _staged(
    known: Mapping[str, str], plan: FieldPlan, view: Box
) -> tuple[Cast, Restart | None]:
    body = (view.right - view.left) // BODIES
    middle = at(0, plan.length // 2)
    cast = Cast(known=known, ground=Ground(plan=plan, body=body), ball=middle, event=middle)
    _STAGED[known["seen"]](cast)
    if cast.fact("spot") == "last_touch":
        cast.event = _touched_last(cast)
    return cast, _restart(cast)


def _restart(cast: Cast) -> Restart | None:
    if cast.fact("spot") == "none":
        return None
    spot, end, plan = Spot(cast.fact("spot")), _end(cast), cast.ground.plan
    where = place(spot, cast.event, plan, end=end)
    return Restart(spot=spot, point=cast.event, end=end, place=where)


def _touched_last(cast: Cast) -> Point:
    """Return where a player played the ball last before it was stopped."""
    starts = [arrow.start for arrow in cast.arrows if arrow.of == "ball"]
    return starts[0] if starts else cast.ball


def _end(cast: Cast) -> Side:
    """Return the end whose mark, area or corner is meant, as side A sees it."""
    taker, spot = cast.fact("taker"), cast.fact("spot")
    if spot in ("goal_area", "goalkeeper_in_penalty_area"):
        return Side.OWN if taker in ("A", "toucher") else Side.OPPONENTS
    return Side.OWN if taker == "B" else Side.OPPONENTS


def _shows(view: Box, cast: Cast, restart: Restart | None) -> bool:
    body = cast.ground.body
    margin = round(body * 1.15)
    points = [
        *(figure.at for figure in cast.figures),
        *(end for arrow in cast.arrows for end in (arrow.start, arrow.end)),
        cast.ball,
    ]
    is_seen = all(
        view.left + margin <= one.x <= view.right - margin
        and view.near + margin // 2 <= one.y <= view.far - margin // 2
        for one in points
    )
    corners = _corners(restart.place) if restart else ()
    return is_seen and all(
        view.left <= one.x <= view.right and view.near <= one.y <= view.far for one in corners
    )


def _corners(where: Place) -> tuple[Point, ...]:
    match where:
        case Box():
            return (at(where.left, where.near), at(where.right, where.far))
        case CornerQuadrant():
            return (where.disc.centre,)
        case Point():
            return (where,)


def _scene(cast: Cast, restart: Restart | None, top: Side, view: Box, ball: Tenths) -> Scene:
    plan = cast.ground.plan
    taken = (restart.place,) if restart and isinstance(restart.place, Point) else ()
    fill_up(cast, view, top, taken)
    figures = tuple(_with_card(figure, cast) for figure in cast.figures)
    return Scene(
        plan=plan,
        top=top,
        view=view,
        body=Tenths(cast.ground.body),
        figures=figures,
        ball=Ball(at=cast.ball, is_in_air=cast.in_air),
        arrows=tuple(cast.arrows),
        whistle=_whistle(cast, figures),
        restart=restart,
        ring=_ring(cast),
        offside=cast.offside.y if cast.offside else None,
        close_up=_close_up(cast, ball),
    )


def _with_card(figure: Figure, cast: Cast) -> Figure:
    card = _CARDS.get(cast.fact("shown"), "none")
    whom = cast.fact("whom")
    is_shown = (figure.at == cast.culprit and "A." in whom) or (
        figure.at == cast.other and "B." in whom
    )
    return replace(figure, card=card) if is_shown else figure


def _whistle(cast: Cast, figures: tuple[Figure, ...]) -> Figure | None:
    """Return the official who is nearer to what happened, where play must be stopped."""
    restart = cast.fact("restart")
    left_field = cast.fact("seen") == "ball_over" and restart != "retake"
    if restart in _QUIET or left_field or cast.fact("moment") == "dead":
        return None
    officials = [one for one in figures if one.role in ("lead", "trail")]
    return min(officials, key=lambda one: distance_squared(one.at, cast.event), default=None)


def _ring(cast: Cast) -> Disc | None:
    """Return the distance that is kept where the situation turns on it."""
    plan, kind = cast.ground.plan, cast.fact("kind")
    balls = [arrow.start for arrow in cast.arrows if arrow.of == "ball"]
    ball = balls[0] if balls else cast.ball
    is_close = cast.fact("seen") in ("near", "ball_over")
    if cast.fact("conduct") in _NEAR_RING or (kind in FREE and is_close):
        return Disc(centre=ball, radius=plan.distances.free_kick)
    if cast.fact("seen") != "near":
        return None
    match kind:
        case "corner_kick":
            corner = at(cast.ground.half_width, plan.length)
            return Disc(
                centre=corner, radius=Tenths(plan.distances.corner + plan.corner_radius)
            )
        case "dropped_ball" if plan.distances.dropped_ball:
            return Disc(centre=ball, radius=plan.distances.dropped_ball)
        case "throw_in" if plan.distances.throw_in:
            return Disc(centre=ball, radius=plan.distances.throw_in)
        case _:
            return None


def _close_up(cast: Cast, ball: Tenths) -> CloseUp | None:
    """Show the ball against the line as large as the eye needs it."""
    if not cast.fact("whole"):
        return None
    is_over = cast.fact("whole") == "yes"
    beyond = ball + ball // 4 if is_over else ball * 3 // 4
    line = "touchline" if cast.fact("line") == "touch" else "goal line"
    return CloseUp(
        line="touchline" if line == "touchline" else "goal line",
        beyond=Tenths(beyond),
        radius=ball,
    )
