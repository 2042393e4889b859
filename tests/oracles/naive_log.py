"""Says what corrections leave of a game's log, in the order of the game."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any, Final

from pydantic import ValidationError

from wholeball.game.event import Event, Moment

CORRECTIONS: Final = ("retract", "disallow", "amend", "answer")
PLACE_IN_A_MOMENT: Final = {
    "period_started": 0,
    "goal": 1,
    "play_restarted": 3,
    "hold_ended": 3,
    "resumed": 3,
    "period_ended": 4,
}
"""A goal stands before what stops play at its second; what begins is before what ends it."""


class NaiveLog:
    """What is left once corrections are done, what is disallowed, and the answers."""

    def __init__(self, events: Iterable[Event]) -> None:
        self.known: dict[str, Event] = {}
        for one in sorted(events, key=lambda event: event.order):
            self.known.setdefault(one.id, one)
        for target in [one.target for one in self.of("retract")]:
            if target in self.known and self.known[target].what.type != "retract":
                del self.known[target]
        for void in [void for one in self.of("replayed") for void in one.voids]:
            self.known.pop(void, None)
        for one in self.of("amend"):
            if one.target in self.known:
                self.known[one.target] = amended(self.known[one.target], one)
        self.disallowed = {one.target for one in self.of("disallow")}
        self.answers = {(one.target, one.asked): one.answer for one in self.of("answer")}
        self.in_order = sorted(
            (one for one in self.known.values() if one.what.type not in CORRECTIONS),
            key=lambda one: (one.at, PLACE_IN_A_MOMENT.get(one.what.type, 2), one.id),
        )

    def of(self, kind: str) -> list[Any]:
        """Return what was recorded of one kind, in the order of the hybrid clocks."""
        return [one.what for one in self.known.values() if one.what.type == kind]


def amended(event: Event, amendment: Any) -> Event:
    """Return an event with one key changed, or as it was where the key cannot have the value."""
    key, value = amendment.key, amendment.value
    if key in ("period", "clock"):
        at = {"period": event.at.period, "clock": event.at.clock, key: value}
        return replace(event, at=Moment(**at)) if type(value) is int else event
    said = {**event.what.model_dump(), key: value}
    try:
        return replace(event, what=type(event.what).model_validate(said, strict=True))
    except ValidationError:
        return event
