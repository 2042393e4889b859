"""States one event as the fold reads it: what happened, when in the game, and its identity."""

from dataclasses import dataclass
from typing import Final, NamedTuple, TypeAlias

from wholeball.game.happenings import EventId, Happening

BEFORE: Final = 0
"""The period of what happened before the kick-off; its clock counts from the scheduled start."""
KICKS: Final = 9
"""The period of kicks from the mark; its clock is the number of the kick."""


class Moment(NamedTuple):
    """A moment of a game: the period, from 1, and its clock in seconds.

    Overtime goes on counting periods. Period 0 is before the game, period 9 the kicks.
    """

    period: int
    clock: int


def later(at: Moment, seconds: int) -> Moment:
    """Return the moment so many seconds later in the same period, added time included."""
    return Moment(at.period, at.clock + seconds)


Order: TypeAlias = tuple[int, int, str, int]
"""The place of an event among all: hybrid clock's milliseconds and counter, device, number.

Only an amendment or answer against another, and certifying against certifying or reopening,
read it.
"""


@dataclass(frozen=True, slots=True)
class Event:
    """One event without its envelope: whoever wrote it down, it says the same."""

    id: EventId
    at: Moment
    order: Order
    what: Happening
