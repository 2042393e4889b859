"""Holds a game as the timetable lists it: who meets whom, when and where."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time
from typing import Literal, TypeAlias, TypeVar

from wholeball.kernel.identity import GameId, TeamId

Stage: TypeAlias = Literal["league", "play_off", "decider"]
"""The league; the bracket; a match between teams of one pool that the table leaves level."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seeded:
    """The side of a play-off game that a seed brings: the first is the best."""

    seed: int
    bracket: str = ""

    def __str__(self) -> str:
        return f"seed {self.seed} of {self.bracket}" if self.bracket else f"seed {self.seed}"


@dataclass(frozen=True, slots=True, kw_only=True)
class From:
    """The side of a play-off game that another brings: its winner or its loser."""

    game: GameId
    takes: Literal["winner", "loser"] = "winner"

    def __str__(self) -> str:
        return f"{self.takes} of {self.game}"


OpenSide: TypeAlias = Seeded | From


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenFixture:
    """A play-off game as the timetable lists it: a side may be still to be known."""

    game: GameId
    round: int
    day: date
    start: time
    field: str
    home: TeamId | OpenSide
    away: TeamId | OpenSide


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixture:
    """One game of the timetable; `start` is the kick-off in local time."""

    game: GameId
    round: int
    day: date
    start: time
    field: str
    home: TeamId
    away: TeamId
    stage: Stage = "league"


Listed = TypeVar("Listed", bound=Fixture | OpenFixture)


def of_night(fixtures: Iterable[Listed], day: date) -> tuple[Listed, ...]:
    """Return the games of one night in the order of their starts, then of their fields."""
    tonight = (fixture for fixture in fixtures if fixture.day == day)
    return tuple(sorted(tonight, key=lambda one: (one.start, _in_order(one.field), one.game)))


def _in_order(field: str) -> tuple[int, str]:
    """Put "Field 2" before "Field 10": shorter numbers first, then the letters."""
    digits = "".join(letter for letter in field if letter.isascii() and letter.isdigit())
    return int(digits or 0), field
