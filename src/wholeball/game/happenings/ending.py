"""Declares what ends a game other than time: forfeits, breaking off, playing again."""

from typing import Annotated, Literal

from pydantic import Field

from wholeball.game.happenings.record import Day, EventId, Recorded
from wholeball.kernel.identity import Side


class Forfeited(Recorded):
    """A side, or both, forfeited."""

    type = "forfeit"
    by: Side | Literal["both"]
    why: Literal["not_ready", "too_few", "left", "barred_player", "conduct", "other"]


class Defaulted(Recorded):
    """A side announced that it would not come; `in_time` is what the league found."""

    type = "default"
    by: Side
    in_time: bool


class BrokenOff(Recorded):
    """The game was stopped for the day; `to_blame` is the side that caused it, or both."""

    type = "broken_off"
    why: Literal["weather", "lights", "field", "injury", "disorder", "numbers", "other"]
    to_blame: Side | Literal["both"] | None = None


class Resumed(Recorded):
    """A game that was broken off goes on where it stopped, whoever the crew is.

    `on` is the day of it, None where nobody wrote it down.
    """

    type = "resumed"
    on: Day | None = None


class Replayed(Recorded):
    """The game is played again from the moment of a protest, or from its start.

    `voids` are the events that were played after that moment and count no more.
    """

    type = "replayed"
    protest: EventId | None
    voids: Annotated[tuple[EventId, ...], Field(max_length=2000)]
