"""Declares what is recorded before a game: check-in, ends, waiting."""

from typing import Annotated, Literal

from pydantic import Field

from wholeball.game.happenings.record import Group, Number, Recorded
from wholeball.kernel.identity import Side


class CheckedIn(Recorded):
    """A player was checked in for a side; `player` is a code or a name, never a student's id."""

    type = "checked_in"
    side: Side
    number: Number = None
    player: Annotated[str, Field(max_length=64)] = ""
    counts_as: Group | None = None


class EndsChosen(Recorded):
    """The winner of the coin or of the guess chose an end or the kick-off."""

    type = "ends_chosen"
    winner: Side
    chose: Literal["end", "kick_off"]


class ShortAtStart(Recorded):
    """A side was short at the scheduled start; the clock of period 0 counts from then."""

    type = "short_at_start"
    side: Side
    present: Annotated[int, Field(ge=0, le=50)]


class WaitChosen(Recorded):
    """The ready side, or the supervisor, chose whether to wait for the other."""

    type = "wait_chosen"
    by: Side | Literal["supervisor"]
    waits: bool


class GotReady(Recorded):
    """The side that was short can start."""

    type = "got_ready"
    side: Side
