"""Finds where undo and redo go: how the scorecard of a game stood after each entering."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from wholeball.game.codec import events
from wholeball.game.envelope import Entry
from wholeball.game.event import Event
from wholeball.game.happenings import EventId, Retracted
from wholeball.game.paper_entries import DEVICE, Told, standing


@dataclass(slots=True)
class Steps:
    """How a scorecard stood, the present last, and what was taken back, the next to redo last.

    What is taken back or brought back is told by what it leads to: entering a card by hand as
    it stood one step before is the same as taking that step back.
    """

    past: list[tuple[Told, ...]] = field(default_factory=lambda: [()])
    undone: list[tuple[Told, ...]] = field(default_factory=list)

    @property
    def before(self) -> tuple[Told, ...] | None:
        """The scorecard as it stood one step before; None where there is no such step."""
        return self.past[-2] if len(self.past) > 1 else None

    @property
    def after(self) -> tuple[Told, ...] | None:
        """The scorecard as it stood before it was taken back; None where it was not."""
        return self.undone[-1] if self.undone else None

    def add(self, stands: tuple[Told, ...]) -> None:
        """Take one entering, taking back, or bringing back."""
        if _is_same(self.after, stands):
            self.past.append(self.undone.pop())
        elif _is_same(self.before, stands):
            self.undone.append(self.past.pop())
        else:
            self.past.append(stands)
            self.undone.clear()


def steps_of(entries: Sequence[Entry]) -> Steps:
    """Return the steps of a log by its entries that stand, oldest first.

    What another device took back stands at no step: neither undo nor redo brings it back.
    """
    every = events(entries)
    elsewhere = {
        one.what.target
        for one in every
        if isinstance(one.what, Retracted) and one.order[2] != DEVICE
    }
    steps = Steps()
    own = [one for one in entries if one.said.dev == DEVICE]
    so_far: list[Event] = []
    for _, batch in groupby(own, key=lambda one: one.said.seen):
        so_far += events(tuple(batch))
        stands = {one.id: Told(one.at, one.what) for one in standing(so_far)}
        steps.add(_without(stands, elsewhere))
    return steps


def _without(stands: Mapping[EventId, Told], gone: set[EventId]) -> tuple[Told, ...]:
    return tuple(told for name, told in stands.items() if name not in gone)


def _is_same(one: tuple[Told, ...] | None, other: tuple[Told, ...]) -> bool:
    return one is not None and Counter(one) == Counter(other)
