"""Lists what happened in a game: what was written down and what follows, as far as is known."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import inf
from typing import Final, Literal, TypeAlias

from wholeball.game.event import Event, Moment
from wholeball.game.happenings import (
    BrokenOff,
    Certified,
    Forfeited,
    Goal,
    PeriodEnded,
    Reopened,
)
from wholeball.game.state import Statement
from wholeball.reports.game_entries import capital, entry
from wholeball.reports.game_statements import stated
from wholeball.reports.game_told import (
    ToldGame,
    ended_when,
    is_before,
    is_timed,
    running,
    untimed_periods,
    when,
    when_written,
)
from wholeball.rulebook.sentence import Sentence

_ELSEWHERE: Final = frozenset({"sign", "refuse_sign", "rating"})
"""Entries that have a section of their own."""


Known: TypeAlias = Literal["moment", "period", "nothing", "afterwards"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Happened:
    """One row of what happened; `ref` and `title` are empty for what was only written down.

    `known` tells how much of its moment somebody wrote down.
    """

    at: Moment
    when: str
    says: Sentence
    known: Known = "moment"
    ref: str = ""
    title: str = ""
    path: str = ""

    @property
    def shown_when(self) -> str:
        """The moment as it stands alone."""
        return capital(self.when)


def happened(told: ToldGame) -> tuple[Happened, ...]:
    """Return what was written down and what follows from it, in the order of the game.

    What follows from an entry whose moment is known stands right after it.
    Goals without a minute come last in their period, before its end; yellow and red without
    one come last of all.
    """
    after = running(told.state.goals)
    rows = [
        (
            at,
            Happened(
                at=event.at, when=when_written(told, event), says=says, known=_known(event)
            ),
        )
        for at, event in enumerate(told.events)
        if event.what.type not in _ELSEWHERE
        and not _is_past_mercy(told, event)
        and (says := entry(told, event, after=after.get(event.id), counts=event.id in after))
        is not None
    ]
    follows = [
        (_after(told, one, row), row)
        for one in told.state.statements
        for row in (_follows(told, one),)
    ]
    ends = dict(_ends(told))
    placed = sorted((*rows, *follows), key=lambda row: (_place(row[1], ends), row[0]))
    return tuple(row for _, row in placed)


def _is_past_mercy(told: ToldGame, event: Event) -> bool:
    """Tell whether a period ends on paper alone: the mercy rule had ended the game in it."""
    ending = told.state.ending
    is_end = isinstance(event.what, PeriodEnded) and event.at.period in untimed_periods(told)
    if ending is None or ending.how != "mercy" or not is_end:
        return False
    return event.at.period == ending.at.period and event.at > ending.at


def _follows(told: ToldGame, statement: Statement) -> Happened:
    """Return the row of a statement; one that rests on an entry without a minute has none."""
    one, event = stated(told, statement), told.event(statement.event)
    ending, known, moment = told.state.ending, _known(event), when(told, one.at)
    if ending is not None and statement.code == ending.how and one.at == ending.at:
        moment = ended_when(told, ending)
        known = "period" if moment != when(told, one.at) else "moment"
    elif event is not None and (is_before(event) or not is_timed(event)):
        moment = when_written(told, event)
    return Happened(
        at=one.at,
        when=moment,
        says=one.says,
        known=known,
        ref=one.ref,
        title=one.title,
        path=one.path,
    )


def _after(told: ToldGame, statement: Statement, row: Happened) -> int:
    """Return after which entry a statement stands; after all where its moment is not known."""
    if row.known == "moment" and statement.event is not None:
        for at, event in enumerate(told.events):
            if event.id == statement.event:
                return at
    return len(told.events)


def _known(event: Event | None) -> Known:
    if event is not None and isinstance(event.what, Certified | Reopened):
        return "afterwards"
    if event is None or is_timed(event):
        return "moment"
    return "period" if isinstance(event.what, Goal) else "nothing"


def _ends(told: ToldGame) -> Iterator[tuple[int, int]]:
    """Yield the periods that ended or were cut, and the clock of it; a game's end comes last."""
    for event in told.events:
        if isinstance(event.what, PeriodEnded | BrokenOff | Forfeited):
            yield event.at
    if told.state.ending is not None:
        yield told.state.ending.at


def _place(row: Happened, ends: Mapping[int, int]) -> tuple[int, int, float, bool]:
    """Return where a row stands: at its moment, or where its period ends, before the end."""
    period, clock = row.at
    is_loose = row.known == "period" and not row.ref
    end = ends.get(period, inf) if is_loose else clock
    last = {"nothing": 1, "afterwards": 2}.get(row.known, 0)
    return last, period, end, not is_loose
