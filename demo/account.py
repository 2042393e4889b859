"""Holds what really happened in a game, before anybody wrote it down, rightly or wrongly."""

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from demo.world import Listed, Person, Side

Colour: TypeAlias = Literal["yellow", "red"]
Ended: TypeAlias = Literal[
    "full_time", "mercy", "overtime", "kicks", "forfeit", "default", "double_forfeit"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scored:
    """A goal: in which period, at which second of it, for whom, by whom."""

    period: int
    clock: int
    side: Side
    by: Person


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A yellow or a red; the red of a player's second yellow says so."""

    period: int
    clock: int
    side: Side
    to: Person
    colour: Colour
    second: bool = False
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kicked:
    """One kick from the mark."""

    side: Side
    by: Person
    scored: bool


@dataclass(slots=True, kw_only=True)
class Account:
    """One game as it was. `worn` are the numbers of the night, given out where shirts have none.

    `ended_at` is period and second where the game ended before its time; `broken_at` where it
    was stopped for the night, and goes on another day.
    """

    listed: Listed
    home: str
    away: str
    ended: Ended = "full_time"
    by: Side | None = None
    present: dict[Side, list[Person]] = field(default_factory=lambda: {"home": [], "away": []})
    worn: dict[str, int] = field(default_factory=dict)
    goals: list[Scored] = field(default_factory=list)
    shown: list[Shown] = field(default_factory=list)
    kicks: list[Kicked] = field(default_factory=list)
    ratings: dict[Side, Fraction] = field(default_factory=dict)
    why_low: dict[Side, str] = field(default_factory=dict)
    ended_at: tuple[int, int] | None = None
    broken_at: tuple[int, int] | None = None

    @property
    def was_played(self) -> bool:
        """Tell whether there was play on the field."""
        return self.ended not in ("forfeit", "default", "double_forfeit")

    def team(self, side: Side) -> str:
        """Return the team of a side."""
        return self.home if side == "home" else self.away

    def score(self, *, period: int | None = None) -> tuple[int, int]:
        """Return the goals of both sides, of all periods or of one."""
        counted = [one.side for one in self.goals if period in (None, one.period)]
        return counted.count("home"), counted.count("away")

    def kicked(self) -> tuple[int, int]:
        """Return the kicks from the mark that went in."""
        sides = [one.side for one in self.kicks if one.scored]
        return sides.count("home"), sides.count("away")

    def number(self, person: Person) -> int:
        """Return the number a person wore in this game."""
        return self.worn[person.student]
