"""Says that a result is official, and the case that entries make which came too late for it."""

from collections.abc import Iterator
from dataclasses import replace

from wholeball.game.codec import events
from wholeball.game.event import Event
from wholeball.game.happenings import (
    Answered,
    Cautioned,
    Certified,
    EventId,
    Goal,
    KickTaken,
    Retracted,
    SentOff,
)
from wholeball.game.late_case import case_words
from wholeball.reports.game_entries import capital, entry, entry_name
from wholeball.reports.game_told import ToldGame, when_written
from wholeball.rulebook.sentence import Sentence, say


def official_words(told: ToldGame) -> Iterator[Sentence]:
    """Yield that the result is certified, and for officials by whom and why all the same."""
    if told.official is None or not isinstance(told.official.certified.what, Certified):
        return
    what = told.official.certified.what
    if told.reader == "everybody":
        yield say("The result is certified.")
    elif what.reason:
        yield say("Certified by {who}: {why}", who=what.by, why=what.reason)
    else:
        yield say("Certified by {who}.", who=what.by)
    late = told.official.late
    if late is not None:
        yield say(
            "{case}. The official result is unchanged.",
            case=capital(case_words(late, told.official.state)),
        )


def late_entries(told: ToldGame) -> tuple[Sentence, ...]:
    """Return each entry that came too late, as far as this reader may see it."""
    if told.official is None or told.official.late is None:
        return ()
    late = events(told.official.late.entries)
    every = replace(told, events=(*told.events, *late), state=told.official.late.state)
    return tuple(says for one in late if (says := _late(every, one)) is not None)


def _late(told: ToldGame, event: Event) -> Sentence | None:
    match event.what:
        case Goal():
            return say("{what}.", what=_named(told, event))
        case Retracted(target=target):
            return _taken_back(told, target)
        case Answered():
            return say("A question is answered.")
        case _:
            return entry(told, event)


def _taken_back(told: ToldGame, target: EventId) -> Sentence | None:
    """Return which entry is taken back; what this reader may not see is told nowhere."""
    gone = told.event(target)
    if gone is None:
        return say("An entry is taken back that stood no more.")
    if isinstance(gone.what, Goal | Cautioned | SentOff | KickTaken):
        return say("Taken back: {what}.", what=_named(told, gone))
    says = entry(told, gone)
    if says is None:
        return None
    what = str(says).removesuffix(".")
    return say("Taken back: {what} ({when}).", what=what, when=when_written(told, gone))


def _named(told: ToldGame, event: Event) -> str:
    return f"{capital(entry_name(told, event.id))}, {when_written(told, event)}"
