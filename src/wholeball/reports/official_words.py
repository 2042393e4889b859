"""Says that a result is official, and the case that entries make which came too late for it."""

from collections.abc import Iterator
from dataclasses import replace

from wholeball.game.codec import events
from wholeball.game.event import Event
from wholeball.game.happenings import Answered, Certified, Goal, Retracted
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
            "{case}. The official result is unchanged; reopen it with a reason if they should "
            "count.",
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
            what = capital(entry_name(told, event.id))
            return say("{what}, {when}.", what=what, when=when_written(told, event))
        case Retracted(target=target):
            return say("The {what} is taken back.", what=entry_name(told, target))
        case Answered():
            return say("A question is answered.")
        case _:
            return entry(told, event)
