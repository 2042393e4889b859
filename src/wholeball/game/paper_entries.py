"""Turns a paper scorecard into entries with their moments, and finds what another one changes."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import Final, NamedTuple

from wholeball.game import happenings as was
from wholeball.game.event import BEFORE, KICKS, Event, Moment
from wholeball.game.happenings import Happening
from wholeball.game.paper import (
    PaperCard,
    PaperKicks,
    PaperProtest,
    PaperRed,
    PaperYellow,
    Players,
)
from wholeball.game.paper_goals import PlacedGoal, placed_goals, played_seconds, seconds_of
from wholeball.game.rules import GameRules
from wholeball.kernel.identity import Side

DEVICE: Final = "paper"
"""The device that typed-in scorecards are entries of."""
AT_THE_DESK: Final = Moment(BEFORE, 0)
"""The moment of what comes before the game, or is no part of it: taking an entry back."""
_OF_A_CARD: Final = (
    was.CheckedIn,
    was.PeriodStarted,
    was.PeriodEnded,
    was.Goal,
    was.Cautioned,
    was.SentOff,
    was.KickTaken,
    was.Forfeited,
    was.Defaulted,
    was.BrokenOff,
    was.Resumed,
    was.Protested,
    was.Rated,
    was.Signed,
    was.SignRefused,
    was.Noted,
)


class Told(NamedTuple):
    """One thing that a scorecard says, and its moment."""

    at: Moment
    what: Happening


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """What another scorecard takes back, and what it says anew."""

    gone: tuple[Event, ...]
    new: tuple[Told, ...]


def told(card: PaperCard, rules: GameRules) -> tuple[Told, ...]:
    """Return what a scorecard says, in the order of the game; the same for the same card."""
    placed = placed_goals(card, rules)
    ends = {period: _end(card, rules, period, placed[period]) for period in placed}
    last = max(ends, default=BEFORE)
    finish = Moment(last, ends.get(last, 0))
    stop = stopped_at(card, rules)
    return (
        *_players(card),
        *_periods(card, rules, placed, ends),
        *_shown(card, finish, stop or finish),
        *_kicks(card.kicks),
        *_going_on(card, stop),
        *_ending(card, finish),
        *_protests(card, finish),
        *_signing(card, finish),
    )


def standing(events: Iterable[Event]) -> tuple[Event, ...]:
    """Return what scorecards have said of a game and nobody has taken back.

    Whoever took an entry back, it stands no more. Give it all events of the game.
    """
    every = tuple(events)
    gone = {one.what.target for one in every if isinstance(one.what, was.Retracted)}
    return tuple(
        one
        for one in every
        if one.order[2] == DEVICE and isinstance(one.what, _OF_A_CARD) and one.id not in gone
    )


def difference(stands: Sequence[Event], wanted: Sequence[Told]) -> Difference:
    """Return what is to be taken back and what is new; what both have keeps its event."""
    missing = Counter(wanted)
    gone = []
    for event in stands:
        same = next((one for one in _readings(event) if missing[one]), None)
        if same is not None:
            missing[same] -= 1
        else:
            gone.append(event)
    new = []
    for one in reversed(wanted):
        if missing[one]:
            missing[one] -= 1
            new.append(one)
    return Difference(gone=tuple(gone), new=tuple(reversed(new)))


def _players(card: PaperCard) -> Iterator[Told]:
    sides: tuple[tuple[Side, Players], ...] = (
        ("home", card.home_players),
        ("away", card.away_players),
    )
    for side, players in sides:
        for one in players:
            yield Told(
                AT_THE_DESK, was.CheckedIn(side=side, number=one.number, player=one.name)
            )


def _readings(event: Event) -> Iterator[Told]:
    """Yield what a card may say for an entry; an old one does not say whether it is timed."""
    yield Told(event.at, event.what)
    match event.what:
        case was.Goal() | was.Cautioned() | was.SentOff() as what:
            if "timed" not in what.model_fields_set:
                yield Told(event.at, what.model_copy(update={"timed": False}))
        case _:
            pass


def _periods(
    card: PaperCard,
    rules: GameRules,
    placed: dict[int, tuple[PlacedGoal, ...]],
    ends: dict[int, int],
) -> Iterator[Told]:
    is_cut = card.forfeit is not None or card.broken_off is not None
    for period, goals in placed.items():
        yield Told(Moment(period, 0), was.PeriodStarted())
        yield from (Told(Moment(period, one.clock), one.goal) for one in goals)
        if not (is_cut and period == len(placed)):
            is_whole = card.ended == "full_time" and period == rules.periods
            what = was.PeriodEnded(whole=True) if is_whole else was.PeriodEnded()
            yield Told(Moment(period, ends[period]), what)


def _end(card: PaperCard, rules: GameRules, period: int, goals: Sequence[PlacedGoal]) -> int:
    """Return the clock at which a period ended: after all that the card puts into it."""
    moments: tuple[PaperYellow | PaperProtest, ...] = (*card.yellow, *card.red, *card.protests)
    timed = [_clock(one.minute) for one in moments if one.period == period]
    latest = max((*(one.clock for one in goals), *timed), default=0)
    is_golden = rules.is_golden and rules.periods < period == len(card.scores)
    if is_golden and goals:
        return latest
    return max(played_seconds(card, rules, period), latest)


def stopped_at(card: PaperCard, rules: GameRules) -> Moment | None:
    """Return where a game stopped that was resumed on another night."""
    if card.resumed is None:
        return None
    period = card.resumed.period
    return Moment(period, max(seconds_of(rules, period) - 60 * card.resumed.minutes_left, 0))


def _going_on(card: PaperCard, stop: Moment | None) -> Iterator[Told]:
    if card.resumed is not None and stop is not None:
        on = None if card.resumed.on is None else card.resumed.on.isoformat()
        yield Told(stop, was.BrokenOff(why=card.resumed.why))
        yield Told(stop, was.Resumed(on=on))


def _shown(card: PaperCard, finish: Moment, stop: Moment) -> Iterator[Told]:
    for yellow in card.yellow:
        yield Told(
            _when(yellow, finish, stop),
            was.Cautioned(
                side=yellow.side,
                number=yellow.number,
                to=yellow.to,
                reason=yellow.reason,
                timed=yellow.minute is not None,
            ),
        )
    for red in card.red:
        yield Told(_when(red, finish, stop), _sent_off(red))


def _sent_off(red: PaperRed) -> was.SentOff:
    return was.SentOff(
        side=red.side,
        number=red.number,
        to=red.to,
        second_caution=red.second_yellow,
        reason=red.reason,
        timed=red.minute is not None,
    )


def _when(shown: PaperYellow, finish: Moment, stop: Moment) -> Moment:
    if shown.period is None or shown.minute is None:
        return stop if shown.before_stop else finish
    return Moment(shown.period, _clock(shown.minute))


def _clock(minute: int | None) -> int:
    return 60 * ((minute or 1) - 1)


def _kicks(kicks: PaperKicks | None) -> Iterator[Told]:
    """Yield kicks in turn, the first side first; a side that has none left is passed over."""
    if kicks is None:
        return
    home, away = _of_side(kicks, "home"), _of_side(kicks, "away")
    turns = zip_longest(home, away) if kicks.first == "home" else zip_longest(away, home)
    taken = (kick for turn in turns for kick in turn if kick is not None)
    for number, kick in enumerate(taken, start=1):
        yield Told(Moment(KICKS, number), kick)


def _of_side(kicks: PaperKicks, side: Side) -> list[was.KickTaken]:
    marks = kicks.home if side == "home" else kicks.away
    numbers = kicks.home_numbers if side == "home" else kicks.away_numbers
    return [
        was.KickTaken(side=side, number=number, scored=mark == "o", taken=mark != "-")
        for mark, number in zip_longest(marks, numbers)
    ]


def _ending(card: PaperCard, finish: Moment) -> Iterator[Told]:
    if card.forfeit is not None:
        yield Told(finish, was.Forfeited(by=card.forfeit.by, why=card.forfeit.why))
    if card.default is not None:
        yield Told(finish, was.Defaulted(by=card.default.by, in_time=card.default.in_time))
    if card.broken_off is not None:
        broken = card.broken_off
        yield Told(finish, was.BrokenOff(why=broken.why, to_blame=broken.to_blame))


def _protests(card: PaperCard, finish: Moment) -> Iterator[Told]:
    """Yield protests; those without a minute stand at the end of what was played."""
    for one in card.protests:
        is_timed = one.period is not None and one.minute is not None
        at = Moment(one.period or 0, _clock(one.minute)) if is_timed else finish
        yield Told(at, was.Protested(side=one.side, about=one.about, by=one.by, timed=is_timed))


def _signing(card: PaperCard, finish: Moment) -> Iterator[Told]:
    for one in card.ratings:
        hundredths = int(one.value.scaleb(2))
        yield Told(
            finish,
            was.Rated(side=one.side, by=one.by, hundredths=hundredths, reason=one.reason),
        )
    yield from (Told(finish, was.Signed(by=by)) for by in card.signed)
    for refusal in card.refused:
        yield Told(finish, was.SignRefused(by=refusal.by, reason=refusal.reason))
    if card.note:
        yield Told(finish, was.Noted(text=card.note))
