"""Draws the marks of a timeline, each with an outline of its own, and the text beside them."""

from typing import Final, Literal, TypeAlias
from xml.sax.saxutils import escape

from wholeball.reports.field_frame import EDGE, INK, INK_2, px, text_width

Mark: TypeAlias = Literal[
    "goal", "loose_goal", "no_goal", "miss", "yellow", "red", "hold", "stop"
]
Anchor: TypeAlias = Literal["start", "middle", "end"]
PAPER: Final = "#ffffff"
YELLOW: Final = "#f5c400"
RED: Final = "#b5122b"
TEXT: Final = 12.0
REACH: Final = 5.0
"""Half the width of a mark."""
CUT: Final = "\N{HORIZONTAL ELLIPSIS}"


def mark(kind: Mark, x: float, y: float) -> str:
    """Return a mark around a point: what it is shows in grey and in black too."""
    fill = {"goal": INK, "yellow": YELLOW, "red": RED}.get(kind, PAPER)
    return (
        f'<path class="mark {kind}" d="{_outline(kind, x, y)}" fill="{fill}" '
        f'stroke="{INK}" stroke-width="1.5"/>'
    )


def line(draws: str, *, kind: str, width: float, dash: str = "") -> str:
    """Return an open line; `kind` is the class that a page colours it by."""
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    colour = INK if kind in ("axis", "bar") else EDGE
    return (
        f'<path class="{kind}" d="{draws}" fill="none" stroke="{colour}" '
        f'stroke-width="{px(width)}"{dashes}/>'
    )


def label(
    x: float, y: float, text: str, *, anchor: Anchor = "start", strong: bool = False
) -> str:
    """Return text whose middle height is at y."""
    kind, colour, weight = ("strong", INK, 700) if strong else ("plain", INK_2, 400)
    return (
        f'<text class="{kind}" x="{px(x)}" y="{px(y + TEXT * 0.36)}" fill="{colour}" '
        f'font-weight="{weight}" text-anchor="{anchor}">{escape(text)}</text>'
    )


def fitted(text: str, width: float) -> str:
    """Return text cut to a width, with a sign that it was cut."""
    if text_width(text, size=TEXT) <= width:
        return text
    room = max(int(width / text_width("x", size=TEXT)) - 1, 1)
    return text[:room].rstrip() + CUT


def _outline(kind: Mark, x: float, y: float) -> str:
    r = REACH
    match kind:
        case "goal" | "loose_goal" | "no_goal":
            cross = (
                f"M{px(x - r)} {px(y + r)}L{px(x + r)} {px(y - r)}" if kind == "no_goal" else ""
            )
            return (
                f"M{px(x - r)} {px(y)}a{r} {r} 0 1 0 {2 * r} 0a{r} {r} 0 1 0 {-2 * r} 0Z{cross}"
            )
        case "yellow":
            return f"M{px(x - 4)} {px(y - 6)}h8v12h-8Z"
        case "red":
            return f"M{px(x - 4)} {px(y - 6)}h4l4 4v8h-8Z"
        case "hold":
            return (
                f"M{px(x - 2.5)} {px(y - 6)}h5l3.5 3.5v5l-3.5 3.5h-5l-3.5 -3.5v-5Z"
                f"M{px(x - 1.8)} {px(y - 3)}v6M{px(x + 1.8)} {px(y - 3)}v6"
            )
        case "stop":
            return f"M{px(x - 2)} {px(y - r)}v{2 * r}M{px(x + 2)} {px(y - r)}v{2 * r}"
        case "miss":
            return (
                f"M{px(x - 4)} {px(y - 4)}L{px(x + 4)} {px(y + 4)}"
                f"M{px(x - 4)} {px(y + 4)}L{px(x + 4)} {px(y - 4)}"
            )
