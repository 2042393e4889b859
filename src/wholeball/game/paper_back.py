"""Reads a paper scorecard back from the entries that it became."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any, Final, TypeVar

from wholeball.game import happenings as was
from wholeball.game.event import Event, Moment
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperDefault,
    PaperForfeit,
    PaperGoal,
    PaperKicks,
    PaperPlayer,
    PaperProtest,
    PaperRating,
    PaperRed,
    PaperRefusal,
    PaperResumed,
    PaperYellow,
)
from wholeball.game.paper_checks import misfits
from wholeball.game.paper_entries import difference, told
from wholeball.game.paper_goals import PlacedGoal, placed_goals, seconds_of
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.kernel.identity import Side

_T = TypeVar("_T", bound=was.Happening)
_SIDES: Final[tuple[Side, Side]] = ("home", "away")


@dataclass(frozen=True, slots=True)
class _Found:
    """One thing of a kind that stands, and its moment."""

    at: Moment
    goal: was.Goal


def card_back(stands: Sequence[Event], rules: GameRules) -> PaperCard:
    """Return the scorecard that says what stands, as `standing` gives it; empty for nothing.

    Of cards that say the same the plainest is returned, and mercy only where time did not end
    the game as well, where the rulebook's ladder ended it by itself, or where no other card has
    its goals at these clocks.
    """
    played = sum(isinstance(one.what, was.PeriodStarted) for one in stands)
    resumed, stop = _resumed(stands, rules)
    goals = [_Found(one.at, one.what) for one in stands if isinstance(one.what, was.Goal)]
    scores = tuple(_score(goals, period) for period in range(1, played + 1))
    values: dict[str, Any] = {
        "periods": scores[: rules.periods],
        "overtime": scores[rules.periods :],
        **_ending([one for one in stands if one is not stop], rules, played),
        "resumed": resumed,
        "yellow": tuple(
            _yellow(one, stop) for one in stands if isinstance(one.what, was.Cautioned)
        ),
        "red": tuple(_red(one, stop) for one in stands if isinstance(one.what, was.SentOff)),
        "kicks": _kicks(stands),
        "home_players": tuple(_players(stands, "home")),
        "away_players": tuple(_players(stands, "away")),
        "protests": tuple(
            _protest(one, one.what) for one in stands if isinstance(one.what, was.Protested)
        ),
        "ratings": tuple(_rating(what) for what in _all(stands, was.Rated)),
        "signed": tuple(what.by for what in _all(stands, was.Signed)),
        "refused": tuple(
            PaperRefusal(by=what.by, reason=what.reason)
            for what in _all(stands, was.SignRefused)
        ),
        "note": "\n".join(what.text for what in _all(stands, was.Noted)),
    }
    timed = [_goal(one, one.at.clock // 60 + 1) for one in goals if _is_timed(one.goal)]
    free = [one for one in goals if not _is_timed(one.goal)]
    card = PaperCard(**values, goals=tuple(timed))
    for other in _variants(card, rules):
        said = other.model_copy(update={"goals": (*timed, *_scorers(free, other, rules))})
        if not misfits(said, rules):
            changed = difference(stands, told(said, rules))
            if not changed.gone and not changed.new:
                return said
    return card.model_copy(update={"goals": (*timed, *_scorers(free, card, rules))})


def _all(stands: Sequence[Event], kind: type[_T]) -> Iterator[_T]:
    return (one.what for one in stands if isinstance(one.what, kind))


def _players(stands: Sequence[Event], side: Side) -> Iterator[PaperPlayer]:
    for what in _all(stands, was.CheckedIn):
        if what.side == side:
            yield PaperPlayer(what.number, what.player)


def _score(goals: Sequence[_Found], period: int) -> Score:
    home, away = (
        sum(one.at.period == period and one.goal.side == side for one in goals)
        for side in _SIDES
    )
    return Score(home, away)


def _is_timed(what: was.Goal | was.Cautioned | was.SentOff) -> bool:
    """Tell whether the card had its minute; an old entry does not say, and has none."""
    return what.timed and "timed" in what.model_fields_set


def _is_named(goal: was.Goal) -> bool:
    return goal.number is not None or goal.own or goal.penalty or _is_timed(goal)


def _goal(found: _Found, minute: int | None, number: int | None = None) -> PaperGoal:
    goal = found.goal
    return PaperGoal(
        side=goal.side,
        period=found.at.period,
        minute=minute,
        number=goal.number if number is None else number,
        own=goal.own,
        penalty=goal.penalty,
    )


def _scorers(free: Sequence[_Found], card: PaperCard, rules: GameRules) -> Iterator[PaperGoal]:
    """Yield goals without a minute in the order of the card, which gave each its clock."""
    if not any(_is_named(one.goal) for one in free) or misfits(card, rules):
        return
    slots = [
        (period, side, [one for one in free if _is_of(one, period, side)])
        for period in range(1, len(card.scores) + 1)
        for side in _SIDES
    ]
    numbered = tuple(
        _goal(one, None, number) for _, _, mine in slots for number, one in enumerate(mine)
    )
    placed = placed_goals(card.model_copy(update={"goals": card.goals + numbered}), rules)
    for period, side, mine in slots:
        yield from _in_order(mine, [one for one in placed[period] if one.goal.side == side])


def _in_order(mine: Sequence[_Found], placed: Sequence[PlacedGoal]) -> Iterator[PaperGoal]:
    """Yield a side's goals of a period by their places, up to the last that says anything.

    Goals numbered by their places were laid out as a card's are: whoever stands at the clock of
    a place was there on the card.
    """
    places = {one.clock: one.goal.number or 0 for one in placed if not one.goal.timed}
    ordered = sorted(mine, key=lambda one: places.get(one.at.clock, len(mine)))
    while ordered and not _is_named(ordered[-1].goal):
        ordered.pop()
    yield from (_goal(one, None) for one in ordered)


def _is_of(one: _Found, period: int, side: Side) -> bool:
    return one.at.period == period and one.goal.side == side


def _resumed(
    stands: Sequence[Event], rules: GameRules
) -> tuple[PaperResumed | None, Event | None]:
    """Return how a game went on another night, and the entry that it had stopped by."""
    for event in stands:
        if isinstance(event.what, was.Resumed):
            stop = next((one for one in stands if _is_stop(one, event.at)), None)
            if stop is not None and isinstance(stop.what, was.BrokenOff):
                on = None if event.what.on is None else date.fromisoformat(event.what.on)
                left = _left(event.at, rules)
                why = stop.what.why
                period = event.at.period
                return PaperResumed(why=why, period=period, minutes_left=left, on=on), stop
    return None, None


def _is_stop(one: Event, at: Moment) -> bool:
    return isinstance(one.what, was.BrokenOff) and one.at == at


def _yellow(event: Event, stop: Event | None) -> PaperYellow:
    what = event.what
    assert isinstance(what, was.Cautioned)  # noqa: S101 - the caller has looked
    period, minute = _minute(event, what)
    return PaperYellow(
        side=what.side,
        number=what.number,
        to=what.to,
        reason=what.reason,
        period=period,
        minute=minute,
        before_stop=_is_before(event, minute, stop),
    )


def _red(event: Event, stop: Event | None) -> PaperRed:
    what = event.what
    assert isinstance(what, was.SentOff)  # noqa: S101 - the caller has looked
    period, minute = _minute(event, what)
    return PaperRed(
        side=what.side,
        number=what.number,
        to=what.to,
        reason=what.reason,
        second_yellow=what.second_caution,
        period=period,
        minute=minute,
        before_stop=_is_before(event, minute, stop),
    )


def _is_before(event: Event, minute: int | None, stop: Event | None) -> bool:
    """Tell whether a yellow or red without a minute stands where the game stopped."""
    return minute is None and stop is not None and event.at == stop.at


def _minute(event: Event, what: was.Cautioned | was.SentOff) -> tuple[int | None, int | None]:
    return (event.at.period, event.at.clock // 60 + 1) if _is_timed(what) else (None, None)


def _kicks(stands: Sequence[Event]) -> PaperKicks | None:
    taken = list(_all(stands, was.KickTaken))
    if not taken:
        return None
    marks = {side: "".join(_mark(one) for one in taken if one.side == side) for side in _SIDES}
    numbers = {
        side: tuple(one.number for one in taken if one.side == side and one.number is not None)
        for side in _SIDES
    }
    return PaperKicks(
        first=taken[0].side,
        home=marks["home"],
        away=marks["away"],
        home_numbers=numbers["home"],
        away_numbers=numbers["away"],
    )


def _mark(kick: was.KickTaken) -> str:
    if not kick.taken:
        return "-"
    return "o" if kick.scored else "x"


def _protest(event: Event, what: was.Protested) -> PaperProtest:
    at = event.at
    return PaperProtest(
        side=what.side,
        about=what.about,
        by=what.by,
        period=at.period if what.timed else None,
        minute=at.clock // 60 + 1 if what.timed else None,
    )


def _rating(what: was.Rated) -> PaperRating:
    whole, part = divmod(what.hundredths, 100)
    value = Decimal(what.hundredths) / 100 if part else Decimal(whole)
    return PaperRating(side=what.side, by=what.by, value=value, reason=what.reason)


def _ending(stands: Sequence[Event], rules: GameRules, played: int) -> dict[str, Any]:
    """Return the keys of how the game ended, and what the clock of its last period still had."""
    for event in stands:
        match event.what:
            case was.Forfeited(by=by, why=why):
                left = _left(event.at, rules) or None
                return {"forfeit": PaperForfeit(by=by, why=why), "minutes_left": left}
            case was.Defaulted(by=by, in_time=in_time):
                return {"default": PaperDefault(by=by, in_time=in_time)}
            case was.BrokenOff(why=why, to_blame=to_blame):
                broken = PaperBrokenOff(why=why, to_blame=to_blame)
                left = _left(event.at, rules) if played else None
                return {"broken_off": broken, "minutes_left": left}
            case _:
                pass
    ended = [(one.at, one.what) for one in stands if isinstance(one.what, was.PeriodEnded)]
    if any(what.whole for _, what in ended):
        return {"ended": "full_time"}
    ends = [at for at, _ in ended]
    left = _left(max(ends), rules) if 0 < played <= rules.periods and ends else 0
    if left or 0 < played < rules.periods:
        return {"ended": "mercy", "minutes_left": left or None}
    return {}


def _left(at: Moment, rules: GameRules) -> int:
    """Return the minutes that a period's clock still had, begun ones whole."""
    if at.period < 1:
        return 0
    return max(-((at.clock - seconds_of(rules, at.period)) // 60), 0)


def _variants(card: PaperCard, rules: GameRules) -> Iterator[PaperCard]:
    """Yield cards of which one may say what stands: the minutes left place goals as well."""
    cut = (card.forfeit, card.default, card.broken_off)
    lead = abs(sum(one.home - one.away for one in card.periods))
    if card.ended == "full_time":
        yield card
        return
    if not any(cut) and not card.overtime and any(lead >= least for least, _ in rules.ladder):
        yield card.model_copy(update={"ended": "mercy"})
    yield card
    if any(cut) or not card.overtime:
        ended = card.ended if any(cut) else "mercy"
        for left in (None, *range(seconds_of(rules, len(card.scores)) // 60 + 1)):
            yield card.model_copy(update={"ended": ended, "minutes_left": left})
