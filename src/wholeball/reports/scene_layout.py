"""Lays a scene out in the picture: where figures, numbers and words go, in pixels."""

from dataclasses import dataclass
from math import hypot
from typing import Final

from wholeball.kernel.units import Unit, in_unit
from wholeball.pitch.areas import Side, turned
from wholeball.pitch.shapes import Box, CornerQuadrant, Point, at
from wholeball.reports.field_frame import Frame
from wholeball.reports.field_svg import NET
from wholeball.reports.scene_labels import Line, Rect, Room, around
from wholeball.reports.scene_marks import BALL, PLACE
from wholeball.reports.scene_words import place_words
from wholeball.rulings.ruling import Ruling, Situation
from wholeball.training.scene import Arrow, Figure, Scene

PAGE: Final = 390.0
"""Width of the picture in its own units: a phone's, so that there a unit is a pixel."""
EDGE: Final = 2.0
CARD: Final = 6.0
NUMBER: Final = 7.0
FAR: Final = 14.0
"""Pixels from which words need a line to what they speak of."""
_ROUND: Final = (
    (0.85, -0.85),
    (-0.85, -0.85),
    (0.85, 0.85),
    (-0.85, 0.85),
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.0, -1.0),
    (0.0, 1.0),
)
_ALONG: Final = (0.5, 0.38, 0.62, 0.28, 0.72, 0.2, 0.8)
_ASIDE: Final = (8.0, -8.0, 11.0, -11.0, 16.0, -16.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Put:
    """Something that stands in the picture: its middle, and how far it reaches."""

    x: float
    y: float
    reach: float

    @property
    def rect(self) -> Rect:
        """The square it takes."""
        return around(self.x, self.y, self.reach)


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words and the room they have; `kind` says what they speak of.

    `leader` is the point they speak of, where they stand too far from it.
    """

    rect: Rect
    lines: tuple[str, ...]
    kind: str
    leader: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A scene in pixels: height of the field's part, figures, arrows, numbers, words."""

    frame: Frame
    height: float
    figures: tuple[tuple[Figure, Put], ...]
    cards: tuple[tuple[str, Put], ...]
    ball: Put
    place: Put | None
    arrows: tuple[tuple[Arrow, Line], ...]
    labels: tuple[Label, ...]


def layout(scene: Scene, situation: Situation, ruling: Ruling | None, unit: Unit) -> Layout:
    """Return where everything goes; no two figures, cards or labels lie on each other."""
    lines = place_words(scene, situation, ruling) if scene.restart and ruling else ()
    return _Laying(scene).out(lines, unit)


class _Laying:
    """Keeps the room that is left while a scene is laid out."""

    def __init__(self, scene: Scene) -> None:
        self._scene = scene
        view, plan = scene.view, scene.plan
        self._scale = PAGE / (view.right - view.left)
        far = view.far if scene.top is Side.OPPONENTS else plan.length - view.near
        self._frame = Frame(
            plan=plan,
            scale=self._scale,
            left=-(view.left + plan.width / 2) * self._scale,
            top=(far - plan.length) * self._scale,
        )
        self._height = (view.far - view.near) * self._scale
        self._room = Room(Rect(EDGE, EDGE, PAGE - EDGE, self._height - EDGE))

    def out(self, restart: tuple[str, ...], unit: Unit) -> Layout:
        """Place what stands first, then numbers, then words; `restart` is its words."""
        scene = self._scene
        reach = scene.body * self._scale
        figures = tuple((one, self._put(one.at, reach)) for one in scene.figures)
        ball = self._put(scene.ball.at, BALL + (3.5 if scene.ball.is_in_air else 0.0))
        place = self._place()
        taken = [*(put for _, put in figures), ball, *([place] if place else [])]
        self._room.taken += [put.rect for put in taken]
        self._room.taken += self._goals()
        arrows = tuple((one, self._line(one, figures)) for one in scene.arrows)
        self._room.avoid += [point for _, line in arrows for point in line.points()]
        cards = tuple((one.card, self._card(put)) for one, put in figures if one.card != "none")
        labels = [self._number(line, n) for n, (_, line) in enumerate(arrows, start=1)]
        labels += self._figure_labels(figures)
        labels += self._place_label(restart, place)
        labels += self._more_labels(figures, unit)
        return Layout(
            frame=self._frame,
            height=self._height,
            figures=figures,
            cards=cards,
            ball=ball,
            place=place,
            arrows=arrows,
            labels=tuple(labels),
        )

    def xy(self, point: Point) -> tuple[float, float]:
        """Return where a point of the field lies in the picture."""
        seen = point
        if self._scene.top is Side.OWN:
            seen = turned(point, self._scene.plan)
        return self._frame.x(seen.x), self._frame.y(seen.y)

    def _goals(self) -> list[Rect]:
        """Return the two nets, which words leave free."""
        half = self._scene.plan.goal_width / 2
        left, right = self._frame.x(-half), self._frame.x(half)
        top, bottom = self._frame.top, self._frame.bottom
        return [Rect(left, top - NET, right, top), Rect(left, bottom, right, bottom + NET)]

    def _put(self, point: Point, reach: float) -> Put:
        x, y = self.xy(point)
        return Put(x=x, y=y, reach=reach)

    def _place(self) -> Put | None:
        """Return the place of the restart where it is one point."""
        restart = self._scene.restart
        if restart is None or not isinstance(restart.place, Point):
            return None
        return self._put(restart.place, PLACE + 1)

    def _line(self, arrow: Arrow, figures: tuple[tuple[Figure, Put], ...]) -> Line:
        """Return an arrow from the edge of what it starts at to the edge of what it reaches."""
        (x1, y1), (x2, y2) = self.xy(arrow.start), self.xy(arrow.end)
        via = self.xy(arrow.via) if arrow.via else ((x1 + x2) / 2, (y1 + y2) / 2)
        reaches = {one.at: put.reach for one, put in figures}
        first = _towards((x1, y1), via, reaches.get(arrow.start, BALL) + 1.5)
        is_ball = arrow.end == self._scene.ball.at and arrow.of == "ball"
        last = _towards((x2, y2), via, BALL + 1.5 if is_ball else 0.0)
        if arrow.via is None:
            via = (first[0] + last[0]) / 2, (first[1] + last[1]) / 2
        return Line(*first, *via, *last)

    def _card(self, put: Put) -> Put:
        """Return where a yellow or red goes: close to the figure, where there is room."""
        for further in (0.0, 4.0, 9.0, 16.0, 25.0):
            away = put.reach + CARD + further
            for dx, dy in _ROUND:
                x, y = put.x + dx * away, put.y + dy * away
                if self._room.spot(x, y, CARD):
                    return Put(x=x, y=y, reach=CARD)
        raise ValueError("there is no room beside the figure")

    def _number(self, line: Line, number: int) -> Label:
        """Put the number of an arrow beside it."""
        length = max(hypot(line.x2 - line.x1, line.y2 - line.y1), 0.01)
        ux, uy = (line.x2 - line.x1) / length, (line.y2 - line.y1) / length
        for aside in _ASIDE:
            for along in _ALONG:
                x, y = line.at(along)
                x, y = x - uy * aside, y + ux * aside
                if self._room.spot(x, y, NUMBER):
                    return Label(rect=around(x, y, NUMBER), lines=(f"{number}",), kind="order")
        rect = self._room.label((f"{number}",), *line.at(0.5), 2.0)
        return Label(rect=rect, lines=(f"{number}",), kind="order")

    def _place_label(self, lines: tuple[str, ...], place: Put | None) -> list[Label]:
        if not lines:
            return []
        x, y, reach = self._anchor(place)
        rect = self._room.label(lines, x, y, reach)
        leader = _leader(rect, x, y, reach)
        return [Label(rect=rect, lines=lines, kind="place", leader=leader)]

    def _anchor(self, place: Put | None) -> tuple[float, float, float]:
        """Return what the words of the restart stand beside: the place, or its area."""
        restart = self._scene.restart
        if place is not None or restart is None:
            return (place.x, place.y, PLACE) if place else (0.0, 0.0, 0.0)
        match restart.place:
            case Box() as box:
                y = box.near if restart.end is Side.OPPONENTS else box.far
                return (*self.xy(at((box.left + box.right) // 2, y)), 3.0)
            case CornerQuadrant() as quadrant:
                return (*self.xy(quadrant.disc.centre), quadrant.disc.radius * self._scale)
            case Point():
                raise ValueError("a point has its own mark")

    def _figure_labels(self, figures: tuple[tuple[Figure, Put], ...]) -> list[Label]:
        labels = []
        for one, put in figures:
            if one.label:
                rect = self._room.label((one.label,), put.x, put.y, put.reach)
                leader = _leader(rect, put.x, put.y, put.reach)
                labels.append(Label(rect=rect, lines=(one.label,), kind="name", leader=leader))
        return labels

    def _more_labels(self, figures: tuple[tuple[Figure, Put], ...], unit: Unit) -> list[Label]:
        """Put words to the whistle and to the ring."""
        scene, labels = self._scene, []
        for one, put in figures:
            if one is scene.whistle:
                lines = (f"{len(scene.arrows) + 1} whistle",)
                rect = self._room.label(lines, put.x, put.y - 4, put.reach + 4)
                labels.append(Label(rect=rect, lines=lines, kind="name"))
        if scene.ring is not None:
            lines = (in_unit(scene.ring.radius, unit),)
            x, y = self.xy(scene.ring.centre)
            away = scene.ring.radius * self._scale
            down = y + away * 0.7 < self._height - 20
            rect = self._room.label(
                lines, x - away * 0.7, y + away * (0.7 if down else -0.7), 2.0
            )
            labels.append(Label(rect=rect, lines=lines, kind="quiet"))
        return labels


def _leader(rect: Rect, x: float, y: float, reach: float) -> tuple[float, float] | None:
    """Return the point that words speak of where they stand too far from it."""
    away = hypot(max(rect.left - x, x - rect.right, 0), max(rect.top - y, y - rect.bottom, 0))
    return (x, y) if away > reach + FAR else None


def _towards(
    point: tuple[float, float], other: tuple[float, float], by: float
) -> tuple[float, float]:
    """Return the point moved towards another one, by a third of the way at most."""
    x, y = other[0] - point[0], other[1] - point[1]
    length = max(hypot(x, y), 0.01)
    by = min(by, length * 2 / 3)
    return point[0] + x * by / length, point[1] + y * by / length
