"""Draws loads as small bars: games a week, of the places where those are known."""

from collections.abc import Iterator, Sequence
from typing import Final
from xml.sax.saxutils import escape

from wholeball.reports.calendar import Load, load_words
from wholeball.reports.field_frame import px

PAGE: Final = 390.0
"""Width of the picture in its own units: a phone's, so that there a unit is a pixel."""
ROW: Final = 22.0
BAR: Final = 10.0
LEFT: Final = 72.0
RIGHT: Final = 64.0
TEXT: Final = 12.5
SVG: Final = "http://www.w3.org/2000/svg"


def loads_svg(found: Sequence[Load], *, title: str) -> str:
    """Return a bar for each load; a frame shows the places, and figures say both."""
    height = ROW * len(found)
    most = max((max(one.games, one.places or 0) for one in found), default=1) or 1
    scale = (PAGE - LEFT - RIGHT) / most
    return "\n".join(
        [
            (
                f'<svg xmlns="{SVG}" role="img" viewBox="0 0 {px(PAGE)} {px(height)}" '
                f'font-size="{px(TEXT)}">'
            ),
            f"<title>{escape(title)}</title>",
            f"<desc>{escape('. '.join(load_words(found)))}.</desc>",
            *(
                part
                for index, one in enumerate(found)
                for part in _bar(one, index * ROW, scale)
            ),
            "</svg>",
            "",
        ]
    )


def _bar(one: Load, top: float, scale: float) -> Iterator[str]:
    middle, at = top + ROW / 2, top + (ROW - BAR) / 2
    base = middle + TEXT / 3
    figure = f"{one.games}" if one.places is None else f"{one.games} of {one.places}"
    yield f'<text x="0" y="{px(base)}" fill="currentColor">{escape(one.label)}</text>'
    if one.places:
        yield (
            f'<rect x="{px(LEFT)}" y="{px(at)}" width="{px(one.places * scale)}" '
            f'height="{px(BAR)}" fill="none" stroke="currentColor" stroke-width="1"/>'
        )
    if one.games:
        yield (
            f'<rect x="{px(LEFT)}" y="{px(at)}" width="{px(one.games * scale)}" '
            f'height="{px(BAR)}" fill="currentColor"/>'
        )
    yield (
        f'<text x="{px(PAGE)}" y="{px(base)}" text-anchor="end" fill="currentColor">'
        f"{escape(figure)}</text>"
    )
