"""Declares what is recorded of the play itself: periods, stops, goals, yellow and red."""

from typing import Annotated, Any, Literal

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer

from wholeball.game.happenings.record import Number, Place, Recorded, Shown, Signer, Stop
from wholeball.kernel.identity import Side


class PeriodStarted(Recorded):
    """A period, or a period of overtime, was begun by a kick-off."""

    type = "period_started"
    kick_off: Side | None = None


class TimeUp(Recorded):
    """The time of a period was up while a chance was on, which is played out."""

    type = "time_up"
    chance: Place


class PeriodEnded(Recorded):
    """The official ended a period.

    `whole` is True where somebody wrote down that the game was played to its time: then no mercy
    rule ended it before, and a person is asked where one would have.
    """

    type = "period_ended"
    whole: bool = False

    @model_serializer(mode="wrap")
    def _without_the_usual(self, written: SerializerFunctionWrapHandler) -> dict[str, Any]:
        """Leave `whole` out where it says nothing: an ordinary entry stays as it always was."""
        found: dict[str, Any] = written(self)
        return found if self.whole else {k: v for k, v in found.items() if k != "whole"}


class PlayStopped(Recorded):
    """Play was stopped; the match clock stops with it only where the rulebook says so."""

    type = "play_stopped"
    why: Stop


class PlayRestarted(Recorded):
    """Play went on."""

    type = "play_restarted"


class HoldBegan(Recorded):
    """Play was stopped for the weather; anybody may do that."""

    type = "hold_began"
    why: Literal["thunder", "flash", "heat", "cold", "air", "field", "other"]


class HoldEnded(Recorded):
    """Play was allowed again; only the supervisor may do that."""

    type = "hold_ended"
    by: Signer


class Goal(Recorded):
    """A goal; `side` gets it, and `number` is of the other side where it was an own goal.

    `timed` is False where nobody wrote the minute down: its clock then only places it in its
    period, and says nothing.
    """

    type = "goal"
    side: Side
    number: Number = None
    own: bool = False
    penalty: bool = False
    timed: bool = True


class Cautioned(Recorded):
    """Yellow was shown; `timed` is False where nobody wrote down when."""

    type = "caution"
    side: Side
    number: Number = None
    to: Shown = "player"
    reason: Annotated[str, Field(max_length=200)] = ""
    timed: bool = True


class SentOff(Recorded):
    """Red was shown; one for a second yellow follows by itself and may be left out.

    `timed` is False where nobody wrote down when.
    """

    type = "sending_off"
    side: Side
    number: Number = None
    to: Shown = "player"
    second_caution: bool = False
    reason: Annotated[str, Field(max_length=200)] = ""
    timed: bool = True
