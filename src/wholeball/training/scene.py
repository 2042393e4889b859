"""Holds a scene: who and what stands where on the field in a situation, and what was ruled.

All places are seen by side A, the side that acts: it attacks upwards. `top` is the end that is
drawn above; who attacks it is drawn as a disc, who defends it as a square.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from wholeball.kernel.units import Tenths
from wholeball.pitch.areas import Side
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Box, Disc, Point
from wholeball.pitch.spots import Place, Spot

Team: TypeAlias = Literal["A", "B"]
Role: TypeAlias = Literal["player", "keeper", "lead", "trail", "other"]
Card: TypeAlias = Literal["none", "yellow", "red", "yellow_red"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """Somebody in the scene; `team` is None for officials and for who belongs to neither side."""

    role: Role
    team: Team | None
    at: Point
    label: str = ""
    card: Card = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """Where the ball is at the moment that matters, seen from above."""

    at: Point
    is_in_air: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow:
    """A movement; arrows stand in the order in which things happened. `via` bends a flight."""

    start: Point
    end: Point
    of: Literal["ball", "player"]
    via: Point | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CloseUp:
    """The ball against a line: how far its centre is beyond the outer edge, and its radius."""

    line: Literal["goal line", "touchline"]
    beyond: Tenths
    radius: Tenths

    @property
    def is_over(self) -> bool:
        """Tell whether the whole of the ball is over the whole of the line."""
        return self.beyond > self.radius


@dataclass(frozen=True, slots=True, kw_only=True)
class Restart:
    """Where play restarts: the spot in words, what it was placed by, and the place."""

    spot: Spot
    point: Point
    end: Side
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A picture as a value. `body` is the radius at which a figure is drawn, to the same scale.

    `whistle` is the official who blows, None where play needs no whistle; `ring` is how far the
    other side keeps away, `offside` the line of the second-last opponent or the ball.
    """

    plan: FieldPlan
    top: Side
    view: Box
    body: Tenths
    figures: tuple[Figure, ...]
    ball: Ball
    arrows: tuple[Arrow, ...]
    whistle: Figure | None
    restart: Restart | None
    ring: Disc | None
    offside: Tenths | None
    close_up: CloseUp | None
