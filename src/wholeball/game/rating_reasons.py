"""Takes the reason of a low rating from the answer that was given when it was asked for."""

from collections.abc import Iterable
from dataclasses import replace

from wholeball.game.corrections import corrected, distinct
from wholeball.game.event import Event
from wholeball.game.happenings import Answered, EventId
from wholeball.game.state import Rating


def with_reasons(ratings: tuple[Rating, ...], events: Iterable[Event]) -> tuple[Rating, ...]:
    """Return ratings, each that lacks a reason with that of the answer to the question for it.

    An answer that was taken back, or gives no reason, is none.
    """
    if all(one.reason.strip() for one in ratings):
        return ratings
    given = _answered(events)
    return tuple(
        one if one.reason.strip() else replace(one, reason=given.get(one.event, one.reason))
        for one in ratings
    )


def _answered(events: Iterable[Event]) -> dict[EventId, str]:
    stand = corrected(distinct(events)[0]).events
    return {
        one.what.target: one.what.reason
        for one in sorted(stand, key=lambda one: one.order)
        if isinstance(one.what, Answered)
        and one.what.asked == "rating_reason"
        and one.what.reason.strip()
    }
