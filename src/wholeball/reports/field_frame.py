"""Holds how a field lies in a picture, and writes the few shapes pictures are made of."""

from dataclasses import dataclass
from xml.sax.saxutils import escape

from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Point

INK, INK_2, EDGE, ACCENT = "#14171d", "#4c5463", "#6b7484", "#1f3bb3"
TEXT = 12.5
LETTER = 0.55
"""Mean width of a letter or numeral in ems, on the wide side for a sans-serif face."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The field in the picture, the opponents' goal above: pixels a tenth, and top left."""

    plan: FieldPlan
    scale: float
    left: float
    top: float

    @property
    def right(self) -> float:
        return self.x(self.plan.width / 2)

    @property
    def bottom(self) -> float:
        return self.y(0)

    def x(self, x: float) -> float:
        return self.left + (x + self.plan.width / 2) * self.scale

    def y(self, y: float) -> float:
        return self.top + (self.plan.length - y) * self.scale

    def at(self, point: Point) -> str:
        return f"{px(self.x(point.x))} {px(self.y(point.y))}"


def px(number: float) -> str:
    """Return a number of pixels with at most two places, the same on every machine."""
    text = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def text_width(text: str, *, size: float = TEXT) -> float:
    """Return about how wide the text is in pixels, rather too wide than too narrow."""
    return len(text) * size * LETTER


def path(draws: str, *, kind: str, colour: str = EDGE, width: float = 1.25) -> str:
    """Return an open line; `draws` is SVG path data."""
    return (
        f'<path class="{kind}" d="{draws}" fill="none" '
        f'stroke="{colour}" stroke-width="{px(width)}"/>'
    )


def line(x1: float, y1: float, x2: float, y2: float) -> str:
    """Return path data of one straight line."""
    return f"M{px(x1)} {px(y1)}L{px(x2)} {px(y2)}"


def dot(x: float, y: float, *, kind: str, colour: str = EDGE, radius: float = 1.8) -> str:
    """Return a filled mark."""
    return (
        f'<circle class="{kind}" cx="{px(x)}" cy="{px(y)}" r="{px(radius)}" fill="{colour}"/>'
    )


def words(x: float, y: float, text: str, *, kind: str, anchor: str = "start") -> str:
    """Return text whose middle height is at y; `kind` is "value" or "name"."""
    colour, weight = (INK, 700) if kind == "value" else (INK_2, 400)
    return (
        f'<text class="{kind}" x="{px(x)}" y="{px(y + TEXT * 0.36)}" fill="{colour}" '
        f'font-weight="{weight}" text-anchor="{anchor}">{escape(text)}</text>'
    )
