"""Declares what is recorded of who is on the field, and of kicks from the mark."""

from typing import Annotated, Literal

from pydantic import Field

from wholeball.game.happenings.record import Number, Pointer, Recorded
from wholeball.kernel.identity import Side


class Counted(Recorded):
    """Somebody counted how many of a side were on the field."""

    type = "counted"
    side: Side
    on_field: Annotated[int, Field(ge=0, le=50)]


class Substituted(Recorded):
    """A player came on for another."""

    type = "substitution"
    side: Side
    off: Number = None
    on: Number = None


class CameOff(Recorded):
    """A player left the field and was not replaced."""

    type = "came_off"
    side: Side
    number: Number = None
    why: Literal["caution", "equipment", "bleeding", "other"]


class CameBack(Recorded):
    """A player came back, or a substitute filled the place."""

    type = "came_back"
    side: Side
    number: Number = None


class Injured(Recorded):
    """Play stopped for an injured player; `record` points to the private record, if any."""

    type = "injury"
    side: Side
    number: Number = None
    goalkeeper: bool = False
    stays: bool = False
    record: Pointer | None = None


class HeadInjurySuspected(Recorded):
    """A head injury was suspected: the player is out for the day."""

    type = "head_injury"
    side: Side
    number: Number = None
    record: Pointer | None = None


class GoalkeeperChanged(Recorded):
    """Another player keeps goal."""

    type = "goalkeeper"
    side: Side
    number: Number = None


class KickersListed(Recorded):
    """Who of a side may take kicks from the mark, such as who was on the field at the end."""

    type = "kickers"
    side: Side
    numbers: Annotated[tuple[Annotated[int, Field(ge=0, le=99)], ...], Field(max_length=50)]


class KickersReduced(Recorded):
    """A side left players out of the kicks, so that both have the same number."""

    type = "kickers_reduced"
    side: Side
    numbers: Annotated[tuple[Annotated[int, Field(ge=0, le=99)], ...], Field(max_length=50)]


class KickTaken(Recorded):
    """A kick from the mark; the event's clock is its number among all kicks, from 1.

    `taken` is False for a kick that was forfeited because nobody came to take it.
    """

    type = "kick"
    side: Side
    number: Number = None
    scored: bool
    taken: bool = True
