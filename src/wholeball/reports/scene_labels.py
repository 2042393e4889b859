"""Finds room for words in a picture: no label on another, on a figure or out of the picture."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import hypot
from typing import Final, NamedTuple

from wholeball.reports.field_frame import text_width

TEXT: Final = 14.0
LINE: Final = 15.0
_BOLD: Final = 1.06
_AROUND: Final = (
    (1, 0),
    (-1, 0),
    (0, 1),
    (0, -1),
    (1, 0.8),
    (-1, 0.8),
    (1, -0.8),
    (-1, -0.8),
)
_STEPS: Final = (0.0, 6.0, 14.0, 24.0, 36.0, 52.0, 72.0)


class Rect(NamedTuple):
    """A rectangle in the picture, in pixels."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Rect") -> bool:
        """Tell whether they share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def is_within(self, other: "Rect") -> bool:
        """Tell whether it lies in the other one, edges included."""
        return (
            other.left <= self.left
            and self.right <= other.right
            and other.top <= self.top
            and self.bottom <= other.bottom
        )


def around(x: float, y: float, reach: float) -> Rect:
    """Return the square round a point."""
    return Rect(x - reach, y - reach, x + reach, y + reach)


class Line(NamedTuple):
    """A curve that words had better not lie on; straight where `via` is its middle."""

    x1: float
    y1: float
    via_x: float
    via_y: float
    x2: float
    y2: float

    def at(self, share: float) -> tuple[float, float]:
        """Return the point of the curve that so much of it lies before."""
        before, middle, after = (1 - share) ** 2, 2 * share * (1 - share), share**2
        return (
            self.x1 * before + self.via_x * middle + self.x2 * after,
            self.y1 * before + self.via_y * middle + self.y2 * after,
        )

    def points(self) -> Iterator[tuple[float, float]]:
        """Yield points along it, some pixels apart."""
        steps = max(int(hypot(self.x2 - self.x1, self.y2 - self.y1) / 5), 1)
        for step in range(steps + 1):
            yield self.at(step / steps)


@dataclass(slots=True)
class Room:
    """What is taken in a picture, and what words should rather avoid."""

    inside: Rect
    taken: list[Rect] = field(default_factory=list)
    avoid: list[tuple[float, float]] = field(default_factory=list)

    def label(self, lines: tuple[str, ...], x: float, y: float, reach: float) -> Rect:
        """Return where words beside a point go, and take the room.

        Near before far; among those that are free, the one on the fewest lines.
        """
        width = max(text_width(line, size=TEXT) for line in lines) * _BOLD
        height = LINE * len(lines)
        best, least = None, float("inf")
        for step in _STEPS:
            for order, (dx, dy) in enumerate(_AROUND):
                away = step + order * 0.5
                rect = _beside(x, y, reach + 2 + step, (dx, dy), (width, height))
                if away >= least or not self.is_free(rect):
                    continue
                cost = self._crossed(rect) * 2 + away
                if cost < least:
                    best, least = rect, cost
        if best is None:
            best = self._anywhere(x, y, width, height)
        self.taken.append(best)
        return best

    def spot(self, x: float, y: float, reach: float) -> bool:
        """Take the room round a point if it is free, and tell whether it was."""
        rect = around(x, y, reach)
        if not self.is_free(rect):
            return False
        self.taken.append(rect)
        return True

    def is_free(self, rect: Rect) -> bool:
        """Tell whether a rectangle lies in the picture and on nothing."""
        return rect.is_within(self.inside) and not any(rect.overlaps(one) for one in self.taken)

    def _crossed(self, rect: Rect) -> int:
        return sum(
            rect.left <= x <= rect.right and rect.top <= y <= rect.bottom for x, y in self.avoid
        )

    def _anywhere(self, x: float, y: float, width: float, height: float) -> Rect:
        """Return the free place nearest to a point, wherever it is."""
        places = [
            Rect(left, top, left + width, top + height)
            for left in range(int(self.inside.left), int(self.inside.right - width), 8)
            for top in range(int(self.inside.top), int(self.inside.bottom - height), 6)
        ]
        free = [rect for rect in places if self.is_free(rect)]
        if not free:
            raise ValueError("there is no room for a label in the picture")
        return min(
            free,
            key=lambda one: hypot(
                (one.left + one.right) / 2 - x, (one.top + one.bottom) / 2 - y
            ),
        )


def _beside(
    x: float,
    y: float,
    reach: float,
    way: tuple[float, float],
    size: tuple[float, float],
) -> Rect:
    width, height = size
    middle_x = x + way[0] * (reach + width / 2) if way[0] else x
    middle_y = y + way[1] * (reach + height / 2)
    return Rect(
        middle_x - width / 2,
        middle_y - height / 2,
        middle_x + width / 2,
        middle_y + height / 2,
    )
