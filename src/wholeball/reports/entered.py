"""Says what entering a scorecard changed: what is taken back, and what is new."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from wholeball.game import happenings as was
from wholeball.game.event import Event
from wholeball.kernel.identity import Side
from wholeball.reports.game_entries import SIGNERS, capital, entry, entry_name
from wholeball.reports.game_persons import person
from wholeball.reports.game_told import ToldGame, period_name, side_name


def changes(told: ToldGame, found: Iterable[Event]) -> tuple[str, ...]:
    """Return a line for each kind of entry, with how many there are; for officials.

    Moments are told by the period alone: a card's goals mostly have no minute.
    """
    return _lines(_counts(told, found))


def both_changes(
    before: ToldGame, gone: Iterable[Event], after: ToldGame, new: Iterable[Event]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what was taken back and what is new, without what reads the same in both.

    An entry that only moved within its period, as a goal does whose minute nobody knows, is no
    news.
    """
    old, young = _counts(before, gone), _counts(after, new)
    return _lines(old - young), _lines(young - old)


def _counts(told: ToldGame, found: Iterable[Event]) -> Counter[str]:
    events = tuple(found)
    about = replace(told, events=events)
    return Counter(f"{_period(told, one)}: {_says(about, one)}" for one in events)


def _lines(counts: Counter[str]) -> tuple[str, ...]:
    return tuple(
        f"{says} ({count} times)" if count > 1 else says for says, count in counts.items()
    )


def _period(told: ToldGame, event: Event) -> str:
    return capital(period_name(told.rules, event.at.period))


def _says(told: ToldGame, event: Event) -> str:
    match event.what:
        case was.Goal():
            return f"{entry_name(told, event.id)}."
        case was.CheckedIn(side=side, number=number, player=name):
            return f"{_checked_in(told, side, number, name)} is checked in."
        case was.SignRefused(by=by, reason=reason):
            return f"{SIGNERS[by]} refuses to sign: {reason}"
        case was.Rated(side=side, hundredths=hundredths, reason=reason):
            why = f": {reason}" if reason else "."
            return f"{side_name(told, side)} is rated {hundredths / 100:g}{why}"
        case _:
            says = entry(told, event)
            return "" if says is None else str(says)


def _checked_in(told: ToldGame, side: Side, number: int | None, name: str) -> str:
    """Return who came to the gate; a name with a number was given that shirt there."""
    if not name:
        return capital(person(told, side, number))
    shirt = "" if number is None else f", with number {number},"
    return f"{name} of {side_name(told, side)}{shirt}"
