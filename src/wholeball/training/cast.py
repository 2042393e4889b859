"""Collects a scene while it is staged: key figures, the ball, arrows, and where it happened."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from wholeball.pitch.shapes import Point
from wholeball.training.ground import Ground
from wholeball.training.scene import Arrow, Figure, Role, Team


@dataclass(slots=True, kw_only=True)
class Cast:
    """A scene in the making. `known` holds the facts and the answers of the ruling.

    `event` is where it happened, by which the restart is placed; `culprit` is who the ruling may
    show yellow or red, `other` the one of the other side; `is_clear` keeps everybody but the
    goalkeeper out of the way to side A's goal.
    """

    known: Mapping[str, str]
    ground: Ground
    figures: list[Figure] = field(default_factory=list)
    arrows: list[Arrow] = field(default_factory=list)
    ball: Point
    event: Point
    in_air: bool = False
    culprit: Point | None = None
    other: Point | None = None
    offside: Point | None = None
    is_clear: bool = False
    taker_side: Team | None = None

    def fact(self, name: str) -> str:
        """Return the value of a fact, or nothing where it was not asked."""
        return self.known.get(name, "")

    def put(
        self, point: Point, team: Team | None, label: str = "", role: Role = "player"
    ) -> Point:
        """Place somebody and return where."""
        self.figures.append(Figure(role=role, team=team, at=point, label=label))
        return point

    def send(
        self, start: Point, end: Point, *, in_air: bool = False, via: Point | None = None
    ) -> Point:
        """Move the ball from one place to the next, in a curve past `via`."""
        self.arrows.append(Arrow(start=start, end=end, of="ball", via=via))
        self.ball, self.in_air = end, in_air
        return end

    def run(self, start: Point, end: Point) -> Point:
        """Let somebody who stands at `start` run."""
        self.arrows.append(Arrow(start=start, end=end, of="player"))
        return end
