"""Draws a scene as one SVG picture, to scale, with a close-up where a line decides."""

from collections.abc import Iterator
from typing import Final
from xml.sax.saxutils import escape

from wholeball.kernel.units import Unit
from wholeball.pitch.areas import Side, turned
from wholeball.pitch.shapes import Box, CornerQuadrant, Point, at
from wholeball.reports import scene_marks as marks
from wholeball.reports.field_frame import EDGE, INK, px
from wholeball.reports.field_svg import FONT, SVG, drawn_field
from wholeball.reports.scene_layout import PAGE, Layout, layout
from wholeball.reports.scene_words import attacks, scene_desc, scene_title
from wholeball.rulings.ruling import Ruling, Situation
from wholeball.training.scene import CloseUp, Figure, Scene

BAND: Final = 96.0
"""Height of the close-up under the field."""
SO_FAR: Final = "What was said so far"
"""The title of a scene that has no ruling yet."""
_BALL: Final = 20.0
_LETTERS: Final = {"keeper": "G", "lead": "L", "trail": "T"}


def scene_svg(scene: Scene, situation: Situation, ruling: Ruling | None, unit: Unit) -> str:
    """Return a scene as SVG; its title is the ruling, its desc tells all that it shows.

    Without a ruling it is a sketch of what was said of a situation so far.
    """
    laid = layout(scene, situation, ruling, unit)
    title = SO_FAR if ruling is None else scene_title(situation, ruling)
    height = laid.height + (BAND if scene.close_up else 0)
    view = f'viewBox="0 0 {px(PAGE)} {px(height)}"'
    field = f'width="{px(PAGE)}" height="{px(laid.height)}"'
    return "\n".join(
        [
            f'<svg xmlns="{SVG}" class="drawn" role="img" {view} font-family="{FONT}">',
            f"<title>{escape(title)}</title>",
            f"<desc>{escape(scene_desc(scene, situation, unit))}</desc>",
            f'<svg {field} viewBox="0 0 {px(PAGE)} {px(laid.height)}">',
            *drawn_field(laid.frame),
            *_ground(scene, laid),
            *_people(scene, laid),
            "</svg>",
            *(_close_up(scene.close_up, scene, laid.height) if scene.close_up else ()),
            "</svg>",
            "",
        ]
    )


def _xy(point: Point, scene: Scene, laid: Layout) -> tuple[float, float]:
    seen = turned(point, scene.plan) if scene.top is Side.OWN else point
    return laid.frame.x(seen.x), laid.frame.y(seen.y)


def _ground(scene: Scene, laid: Layout) -> Iterator[str]:
    """Draw what lies on the ground: offside line, distance, place of the restart, arrows."""
    if scene.offside is not None:
        _, y = _xy(at(0, scene.offside), scene, laid)
        yield marks.dashed(f"M0 {px(y)}H{px(PAGE)}", kind="offside")
    if scene.ring is not None:
        x, y = _xy(scene.ring.centre, scene, laid)
        r = px(scene.ring.radius * laid.frame.scale)
        d = px(2 * scene.ring.radius * laid.frame.scale)
        start = px(x - scene.ring.radius * laid.frame.scale)
        yield marks.dashed(
            f"M{start} {px(y)}a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0", kind="ring"
        )
    yield from _place(scene, laid)
    for label in laid.labels:
        if label.leader is not None:
            yield marks.leader(label.leader, label.rect)
    for one, line in laid.arrows:
        yield marks.arrow(line, of=one.of)


def _place(scene: Scene, laid: Layout) -> Iterator[str]:
    match scene.restart.place if scene.restart else None:
        case Point() as point:
            yield marks.place(*_xy(point, scene, laid))
        case Box() as box:
            x1, y1 = _xy(at(box.left, box.near), scene, laid)
            x2, y2 = _xy(at(box.right, box.far), scene, laid)
            yield marks.zone(f"M{px(x1)} {px(y1)}H{px(x2)}V{px(y2)}H{px(x1)}Z")
        case CornerQuadrant() as quadrant:
            x, y = _xy(quadrant.disc.centre, scene, laid)
            r = quadrant.disc.radius * laid.frame.scale
            inward = r if x < PAGE / 2 else -r
            sweep = int(inward < 0)
            yield marks.zone(
                f"M{px(x)} {px(y)}h{px(inward)}A{px(r)} {px(r)} 0 0 {1 - sweep} {px(x)} {px(y + r)}Z"
            )
        case None:
            return


def _people(scene: Scene, laid: Layout) -> Iterator[str]:
    """Draw who is there, the ball, what is shown, and the words."""
    for one, put in laid.figures:
        kind = _kind(one, scene)
        yield marks.figure(kind, put.x, put.y, put.reach)
        if one.role in _LETTERS:
            yield marks.letter(kind, put.x, put.y, _LETTERS[one.role])
        if one is scene.whistle:
            yield marks.whistle(put.x, put.y, put.reach)
    yield marks.ball(laid.ball.x, laid.ball.y, is_in_air=scene.ball.is_in_air)
    for kind, put in laid.cards:
        yield marks.card(kind, put.x, put.y)
    for label in laid.labels:
        yield marks.words(label.rect, tuple(map(escape, label.lines)), kind=label.kind)


def _kind(one: Figure, scene: Scene) -> str:
    """Return the shape: attackers are discs, defenders squares, officials triangles."""
    if one.role == "other":
        return "diamond"
    if one.team is None:
        return "triangle"
    return "disc" if attacks(one.team, scene) else "square"


def _close_up(one: CloseUp, scene: Scene, top: float) -> Iterator[str]:
    """Draw the ball against the line as if from right above, field below and beyond above."""
    width = scene.plan.line_width * _BALL / one.radius
    middle, outer = top + BAND / 2, top + BAND / 2 - width / 2 + 8
    y = outer - one.beyond * _BALL / one.radius
    left, right = 12.0, 132.0
    yield (
        f'<path class="band" d="M{px(left)} {px(outer)}H{px(right)}v{px(width)}H{px(left)}Z" '
        f'fill="{EDGE}" fill-opacity=".35" stroke="{EDGE}" stroke-width="1.25"/>'
    )
    yield (
        f'<circle class="close" cx="{px((left + right) / 2)}" cy="{px(y)}" r="{px(_BALL)}" '
        f'fill="none" stroke="{INK}" stroke-width="2"/>'
    )
    yield marks.dashed(f"M{px(left)} {px(outer)}H{px(right)}", kind="ring")
    over = "All of the ball is over" if one.is_over else "Not all of the ball is over"
    for row, text in enumerate((over, f"all of the {one.line}.", "Close-up, field below.")):
        kind, weight = ("beside more", 400) if row == 2 else ("beside", 700)
        yield (
            f'<text class="{kind}" x="{px(right + 16)}" y="{px(middle - 12 + row * 17)}" '
            f'fill="{INK}" font-size="13.5" font-weight="{weight}">{escape(text)}</text>'
        )
