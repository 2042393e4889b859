"""Says of a game that was broken off why, how much of it was played, and what follows."""

from collections.abc import Iterator
from typing import Final, Literal

from wholeball.game.event import Event
from wholeball.game.happenings import BrokenOff, PeriodEnded
from wholeball.reports.game_entries import WHY_BROKEN
from wholeball.reports.game_statements import cited
from wholeball.reports.game_told import ToldGame, length, minutes
from wholeball.rulebook.sentence import Sentence, say

_PARTS: Final = {"half": "half", "three_quarters": "three quarters", "full_time": "all"}
_FOLLOWS: Final[dict[Literal["resumed", "replayed", "annulled"], str]] = {
    "resumed": "It is to be resumed where it stopped: {ref}.",
    "replayed": "It is to be played again from its start: {ref}.",
    "annulled": "It counts for nothing: {ref}.",
}
_BY_RULEBOOK: Final = frozenset({"complete", "annulled"})


def broken_off_words(told: ToldGame) -> Iterator[Sentence]:
    """Yield why a game was broken off, after how much of it, and what the rulebook makes of it."""
    event = _last(told)
    if event is None or not isinstance(event.what, BrokenOff) or not _is_so(told):
        return
    played, whole = _played(told, event), _whole(told)
    yield say(
        "It was broken off because of {why}, after {played} of {whole} minutes.",
        why=WHY_BROKEN[event.what.why],
        played=_minutes(played),
        whole=_minutes(whole),
    )
    rule = told.rules.book.resumption
    ref, part = cited(told.rules.book, "resumption")[0], _PARTS[rule.complete_after]
    had = f"{part} of it had been played"
    ending = told.state.ending
    if ending is not None and ending.how == "complete":
        yield say(f"It is complete, since {had}: {{ref}}.", ref=ref)
    elif ending is None and any(one.code == "to_resume" for one in told.state.statements):
        yield say(_FOLLOWS["resumed"], ref=ref)
    elif ending is None:
        yield say(_FOLLOWS["replayed"], ref=ref)
    elif ending.how == "annulled" and ending.article == "resumption":
        yield say(_FOLLOWS["annulled"], ref=ref)


def _is_so(told: ToldGame) -> bool:
    """Tell whether breaking off is how the game stands, and not what a forfeit came of."""
    ending = told.state.ending
    if ending is None:
        return told.state.phase == "broken_off"
    return ending.how == "to_coordinator" or (
        ending.how in _BY_RULEBOOK and ending.article == "resumption"
    )


def _last(told: ToldGame) -> Event | None:
    broken = [one for one in told.events if isinstance(one.what, BrokenOff)]
    return broken[-1] if broken else None


def _played(told: ToldGame, event: Event) -> int:
    """Return the seconds of the regular periods that were played; those ended by their end."""
    ends = {
        one.at.period: one.at.clock for one in told.events if isinstance(one.what, PeriodEnded)
    }
    played = 0
    for period in range(1, min(event.at.period, told.rules.periods) + 1):
        whole = length(told, period)
        clock = event.at.clock if period == event.at.period else whole
        played += min(whole, ends.get(period, clock))
    return played


def _whole(told: ToldGame) -> int:
    return sum(length(told, one) for one in range(1, told.rules.periods + 1))


def _minutes(seconds: int) -> str:
    return minutes(seconds) if seconds % 60 else f"{seconds // 60}"
