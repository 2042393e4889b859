"""Draws the marks of a scene: every kind has an outline of its own, so colour says nothing alone."""

from math import hypot
from typing import Final

from wholeball.reports.field_frame import ACCENT, EDGE, INK, INK_2, px
from wholeball.reports.scene_labels import LINE, TEXT, Line, Rect

PAPER: Final = "#ffffff"
YELLOW: Final = "#f5c400"
RED: Final = "#b5122b"
BALL: Final = 4.0
PLACE: Final = 7.5
HEAD: Final = 6.0


def figure(kind: str, x: float, y: float, r: float) -> str:
    """Return the outline of a figure: disc, square, triangle or diamond."""
    fill = ACCENT if kind == "disc" else PAPER
    return (
        f'<path class="figure {kind}" d="{_outline(kind, x, y, r)}" fill="{fill}" '
        f'stroke="{INK}" stroke-width="1.5"/>'
    )


def _outline(kind: str, x: float, y: float, r: float) -> str:
    match kind:
        case "disc":
            d = px(2 * r)
            return f"M{px(x - r)} {px(y)}a{px(r)} {px(r)} 0 1 0 {d} 0a{px(r)} {px(r)} 0 1 0 -{d} 0Z"
        case "square":
            half = r * 0.88
            return (
                f"M{px(x - half)} {px(y - half)}h{px(2 * half)}v{px(2 * half)}h{px(-2 * half)}Z"
            )
        case "triangle":
            return f"M{px(x)} {px(y - r)}L{px(x + r)} {px(y + r * 0.8)}H{px(x - r)}Z"
        case _:
            return f"M{px(x)} {px(y - r)}l{px(r)} {px(r)}l{px(-r)} {px(r)}l{px(-r)} {px(-r)}Z"


def letter(kind: str, x: float, y: float, text: str) -> str:
    """Return the letter in a figure."""
    colour = PAPER if kind == "disc" else INK
    down = 5.5 if kind == "triangle" else 4.2
    size = 10 if kind == "triangle" else 12
    return (
        f'<text class="letter {kind}" x="{px(x)}" y="{px(y + down)}" fill="{colour}" '
        f'font-size="{size}" font-weight="700" text-anchor="middle">{text}</text>'
    )


def ball(x: float, y: float, *, is_in_air: bool) -> str:
    """Return the ball; in the air it is drawn above its shadow on the ground."""
    if not is_in_air:
        return _disc(x, y, "ball", BALL)
    shadow = (
        f'<ellipse class="shadow" cx="{px(x)}" cy="{px(y + 1.5)}" rx="4.5" ry="1.8" '
        f'fill="{EDGE}"/>'
    )
    return shadow + _disc(x, y - 7, "ball", BALL)


def _disc(x: float, y: float, kind: str, r: float) -> str:
    return (
        f'<circle class="{kind}" cx="{px(x)}" cy="{px(y)}" r="{px(r)}" fill="{INK}" '
        f'stroke="{PAPER}" stroke-width="1"/>'
    )


def arrow(line: Line, *, of: str) -> str:
    """Return an arrow from edge to edge: a whole line for the ball, dashes for a run."""
    x1, y1, x2, y2 = line.via_x, line.via_y, line.x2, line.y2
    length = max(hypot(x2 - x1, y2 - y1), 0.01)
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    bx, by = x2 - ux * HEAD, y2 - uy * HEAD
    side = HEAD * 0.5
    dash = ' stroke-dasharray="5 3.5"' if of == "player" else ""
    return (
        f'<path class="arrow" d="M{px(line.x1)} {px(line.y1)}Q{px(x1)} {px(y1)} {px(bx)} {px(by)}" '
        f'fill="none" '
        f'stroke="{INK}" stroke-width="1.75"{dash}/>'
        f'<path class="head" d="M{px(x2)} {px(y2)}L{px(bx - uy * side)} {px(by + ux * side)}'
        f'L{px(bx + uy * side)} {px(by - ux * side)}Z" fill="{INK}"/>'
    )


def place(x: float, y: float) -> str:
    """Return the place of a restart: a ring with a cross."""
    r = PLACE
    return (
        f'<circle class="place" cx="{px(x)}" cy="{px(y)}" r="{r}" fill="none" '
        f'stroke="{ACCENT}" stroke-width="2.5"/>'
        f'<path class="place" d="M{px(x - r)} {px(y)}h{2 * r}M{px(x)} {px(y - r)}v{2 * r}" '
        f'fill="none" stroke="{ACCENT}" stroke-width="1.25"/>'
    )


def zone(draws: str) -> str:
    """Return the area anywhere in which a restart is taken; `draws` is SVG path data."""
    return (
        f'<path class="place" d="{draws}" fill="none" stroke="{ACCENT}" stroke-width="3" '
        f'stroke-dasharray="9 3"/>'
    )


def dashed(draws: str, *, kind: str) -> str:
    """Return a thin dashed line: the distance that is kept, or the offside line."""
    return (
        f'<path class="{kind}" d="{draws}" fill="none" stroke="{EDGE}" stroke-width="1.5" '
        f'stroke-dasharray="3 3"/>'
    )


def whistle(x: float, y: float, r: float) -> str:
    """Return rays over the official who whistles."""
    top = y - r - 2
    return (
        f'<path class="whistle" d="M{px(x - 6)} {px(top)}l-3 -4M{px(x)} {px(top - 1)}v-5'
        f'M{px(x + 6)} {px(top)}l3 -4" fill="none" stroke="{INK}" stroke-width="1.75"/>'
    )


def card(kind: str, x: float, y: float) -> str:
    """Return what is shown: yellow is an upright rectangle, red has a cut corner."""
    if kind == "yellow_red":
        return card("yellow", x - 5, y) + card("red", x + 5, y)
    shape = "h8v12h-8Z" if kind == "yellow" else "h4l4 4v8h-8Z"
    fill = YELLOW if kind == "yellow" else RED
    return (
        f'<path class="card {kind}" d="M{px(x - 4)} {px(y - 6)}{shape}" fill="{fill}" '
        f'stroke="{INK}" stroke-width="1.5"/>'
    )


def leader(point: tuple[float, float], rect: Rect) -> str:
    """Return a thin line from a place to the words that speak of it."""
    x = min(max(point[0], rect.left), rect.right)
    y = min(max(point[1], rect.top), rect.bottom)
    length = max(hypot(x - point[0], y - point[1]), 0.01)
    start_x = point[0] + (x - point[0]) * PLACE / length
    start_y = point[1] + (y - point[1]) * PLACE / length
    return (
        f'<path class="place" d="M{px(start_x)} {px(start_y)}L{px(x)} {px(y)}" fill="none" '
        f'stroke="{ACCENT}" stroke-width="1.25"/>'
    )


def words(rect: Rect, lines: tuple[str, ...], *, kind: str = "name") -> str:
    """Return a label in its place; the first line is bold. Paper shows round the letters."""
    middle = (rect.left + rect.right) / 2
    return "".join(
        f'<text class="{kind}{" more" if row else ""}" x="{px(middle)}" '
        f'y="{px(rect.top + LINE * (row + 0.78))}" fill="{INK_2 if row else INK}" '
        f'font-size="{px(TEXT)}" font-weight="{400 if row else 700}" text-anchor="middle" '
        f'paint-order="stroke" stroke="{PAPER}" stroke-width="4" stroke-linejoin="round">'
        f"{line}</text>"
        for row, line in enumerate(lines)
    )
