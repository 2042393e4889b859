"""Draws counts by week as bars that are read without colour, several pictures on one scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final
from xml.sax.saxutils import escape

from wholeball.reports.field_frame import px

PAGE: Final = 390.0
"""Width of the picture in its own units: a phone's, so that there a unit is a pixel."""
TEXT: Final = 12.5
LEFT: Final = 4.0
HIGH: Final = 96.0
HEAD: Final = 22.0
FOOT: Final = 20.0
ABOVE: Final = 16.0
MOST_NUMBERS: Final = 20
"""Bars that have their number above them; of more, the highest has."""
LABEL_WIDE: Final = 48.0
LETTERS: Final = 46
CUT: Final = "\N{HORIZONTAL ELLIPSIS}"
SVG: Final = "http://www.w3.org/2000/svg"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """The counts of one thing, a bar each."""

    name: str
    values: tuple[int, ...]


def bars_svg(row: Row, labels: Sequence[str], *, most: int, unit: str) -> str:
    """Return a row of bars as SVG; its desc says every count in words.

    Args:
        row: what is drawn, a count for each label.
        labels: what each bar stands for, such as the day a week begins.
        most: the count that takes the whole height, so that pictures can share a scale.
        unit: what is counted, in words, such as "games played".
    """
    view = f"0 0 {px(PAGE)} {px(HEAD + ABOVE + HIGH + FOOT)}"
    counts = "; ".join(
        f"{label}: {value}" for label, value in zip(labels, row.values, strict=True)
    )
    return "\n".join(
        [
            f'<svg xmlns="{SVG}" role="img" viewBox="{view}" font-size="{px(TEXT)}">',
            f"<title>{escape(row.name)}, {escape(unit)}</title>",
            f"<desc>{escape(counts)}.</desc>",
            *_row(row, labels, most),
            "</svg>",
            "",
        ]
    )


def _row(row: Row, labels: Sequence[str], most: int) -> Iterator[str]:
    name = row.name if len(row.name) <= LETTERS else f"{row.name[: LETTERS - 1]}{CUT}"
    yield _text(LEFT, TEXT, name, kind="name")
    ground = HEAD + ABOVE + HIGH
    step = (PAGE - 2 * LEFT) / max(len(labels), 1)
    every = max(1, -(-int(LABEL_WIDE) // int(max(step, 1))))
    for nth, (label, value) in enumerate(zip(labels, row.values, strict=True)):
        x = LEFT + nth * step
        tall = HIGH * value / most if most else 0.0
        middle = x + step / 2
        if value:
            yield (
                f'<rect class="bar" x="{px(x + step * 0.15)}" y="{px(ground - tall)}" '
                f'width="{px(step * 0.7)}" height="{px(tall)}"/>'
            )
        if len(labels) <= MOST_NUMBERS or value == max(row.values):
            yield _text(middle, ground - tall - 4, str(value), kind="value", anchor="middle")
        if nth % every == 0:
            yield _text(x + step * 0.15, ground + TEXT + 2, label)
    yield f'<path class="ground" d="M{px(LEFT)} {px(ground)}H{px(PAGE - LEFT)}"/>'


def _text(x: float, y: float, text: str, *, kind: str = "", anchor: str = "start") -> str:
    named = f' class="{kind}"' if kind else ""
    return f'<text{named} x="{px(x)}" y="{px(y)}" text-anchor="{anchor}">{escape(text)}</text>'
