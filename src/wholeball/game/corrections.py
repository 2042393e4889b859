"""Takes corrections into account before anything is counted, in whatever order they came."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from pydantic import ValidationError

from wholeball.game.event import KICKS, Event, Moment
from wholeball.game.happenings import (
    Amended,
    Answered,
    Cautioned,
    Disallowed,
    EventId,
    Goal,
    Happening,
    Replayed,
    Retracted,
    SentOff,
)
from wholeball.game.state import Question

_CORRECTIONS: Final = (Retracted, Disallowed, Amended, Answered)


@dataclass(frozen=True, slots=True, kw_only=True)
class Corrected:
    """What is left to fold, what is disallowed, answered and void, and what is asked."""

    events: tuple[Event, ...]
    disallowed: frozenset[EventId]
    answers: dict[tuple[EventId, str], str]
    voided: frozenset[EventId]
    questions: tuple[Question, ...]


def distinct(events: Iterable[Event]) -> tuple[dict[EventId, Event], list[Question]]:
    """Return each event once by its identity, and a question for an identity used twice.

    Of two contents under one identity the one that comes second in the order is set aside.
    """
    found: dict[EventId, Event] = {}
    clashes: set[EventId] = set()
    for event in events:
        other = found.setdefault(event.id, event)
        if other is event:
            continue
        if (other.at, other.what) != (event.at, event.what):
            clashes.add(event.id)
        found[event.id] = min(other, event, key=_by_order)
    return found, [
        Question(code="id_clash", at=found[name].at, event=name, counts=False)
        for name in sorted(clashes)
    ]


def corrected(found: dict[EventId, Event]) -> Corrected:
    """Return the events with every retract, disallow, amendment and answer applied.

    All are memberships in sets, so that one may come before its target; only amendments of the
    same value, and answers to the same question, are held against each other, by the order.
    """
    changes = [event for event in found.values() if isinstance(event.what, _CORRECTIONS)]
    if not changes and not any(isinstance(one.what, Replayed) for one in found.values()):
        return Corrected(
            events=tuple(found.values()),
            disallowed=frozenset(),
            answers={},
            voided=frozenset(),
            questions=(),
        )
    return _applied(found, changes)


def _applied(found: dict[EventId, Event], changes: list[Event]) -> Corrected:
    asked: list[Question] = []
    gone = _retracted(found, changes, asked)
    voided = {
        target
        for event in found.values()
        if isinstance(event.what, Replayed) and event.id not in gone
        for target in event.what.voids
    }
    gone |= voided
    kept = {
        name: event
        for name, event in found.items()
        if name not in gone or isinstance(event.what, Retracted)
    }
    in_order = sorted((kept[one.id] for one in changes if one.id in kept), key=_by_order)
    disallowed = _disallowed(found, in_order, asked)
    answers = _answers(found, in_order, asked)
    for event, what in _amendments(found, in_order, asked):
        if what.target in kept:
            kept[what.target] = _amended(kept[what.target], event, what, asked)
    return Corrected(
        events=tuple(kept.values()),
        disallowed=disallowed,
        answers=answers,
        voided=frozenset(voided),
        questions=answered(asked, answers),
    )


def answered(
    asked: Iterable[Question], answers: dict[tuple[EventId, str], str]
) -> tuple[Question, ...]:
    """Return questions with what was answered to them, in an order of their own."""
    told = (replace(one, answer=answers.get((one.event, one.code))) for one in asked)
    return tuple(sorted(told, key=lambda one: (one.event, one.code)))


def _retracted(
    found: dict[EventId, Event], changes: list[Event], asked: list[Question]
) -> set[EventId]:
    """Return what never happened; a retract of a retract has no effect."""
    gone = set()
    for event in changes:
        if not isinstance(event.what, Retracted):
            continue
        target = event.what.target
        if _is_missing(event, target, found, asked):
            continue
        if isinstance(found[target].what, Retracted):
            asked.append(_question("not_retractable", event, target))
        else:
            gone.add(target)
    return gone


def _disallowed(
    found: dict[EventId, Event], changes: list[Event], asked: list[Question]
) -> frozenset[EventId]:
    targets = set()
    for event in changes:
        if not isinstance(event.what, Disallowed):
            continue
        target = event.what.target
        if _is_missing(event, target, found, asked):
            continue
        if isinstance(found[target].what, Goal):
            targets.add(target)
        else:
            asked.append(_question("not_a_goal", event, target))
    return frozenset(targets)


def _answers(
    found: dict[EventId, Event], changes: list[Event], asked: list[Question]
) -> dict[tuple[EventId, str], str]:
    answers: dict[tuple[EventId, str], str] = {}
    for event in changes:
        if isinstance(event.what, Answered):
            _is_missing(event, event.what.target, found, asked)
            answers[event.what.target, event.what.asked] = event.what.answer
    return answers


def _amendments(
    found: dict[EventId, Event], changes: list[Event], asked: list[Question]
) -> list[tuple[Event, Amended]]:
    """Return the amendments in their order: the last that a value can have holds."""
    return [
        (event, event.what)
        for event in changes
        if isinstance(event.what, Amended)
        and not _is_missing(event, event.what.target, found, asked)
    ]


def _is_missing(
    event: Event, target: EventId, found: dict[EventId, Event], asked: list[Question]
) -> bool:
    if target in found:
        return False
    asked.append(_question("pending", event, target))
    return True


def _amended(target: Event, event: Event, what: Amended, asked: list[Question]) -> Event:
    key, value = what.key, what.value
    if key in ("period", "clock"):
        moved = _moved(target, key, value)
        if moved is not None:
            return moved
    elif key in type(target.what).model_fields and not isinstance(target.what, _CORRECTIONS):
        try:
            told = {**dict(target.what), key: value}
            return replace(target, what=type(target.what).model_validate(told))
        except ValidationError:
            pass
    asked.append(_question("not_amendable", event, target.id))
    return target


def _moved(target: Event, key: str, value: object) -> Event | None:
    """Return an event at another period or clock, or None where there is no such moment."""
    if not isinstance(value, int) or isinstance(value, bool):
        return None
    period, clock = target.at
    if key == "clock":
        return replace(target, at=Moment(period, value), what=_timed(target.what))
    return replace(target, at=Moment(value, clock)) if value <= KICKS else None


def _timed(what: Happening) -> Happening:
    """Return what happened as known to the minute: somebody has said what the clock was."""
    if isinstance(what, Goal | Cautioned | SentOff):
        return what.model_copy(update={"timed": True})
    return what


def _question(code: str, event: Event, other: EventId) -> Question:
    return Question(code=code, at=event.at, event=event.id, other=other, counts=False)


def _by_order(event: Event) -> tuple[object, ...]:
    return (*event.order, event.at, event.what.type, event.what.model_dump_json())
