"""Holds a game as it is told: its state, its entries, its rules and its sides, and for whom."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from wholeball.game.corrections import corrected, distinct
from wholeball.game.event import BEFORE, KICKS, Event, Moment
from wholeball.game.happenings import (
    Cautioned,
    Certified,
    EventId,
    Goal,
    GotReady,
    KickTaken,
    Protested,
    Reopened,
    Retracted,
    SentOff,
    ShortAtStart,
)
from wholeball.game.official import Official
from wholeball.game.rules import GameRules
from wholeball.game.sequence import FIRST, Key, is_played, place
from wholeball.game.state import Ending, GameState, GoalLine, Score
from wholeball.kernel.identity import GameId, Side
from wholeball.season.result import Result
from wholeball.season.ruling import Ruling

Reader: TypeAlias = Literal["everybody", "officials"]
"""Who reads it: ratings, reasons, notes and private records are only for officials."""
NO_MINUTE: Final = "minute not written down"
ORDINALS: Final = ("first", "second", "third", "fourth")
_NAMES: Final[dict[int, str]] = {1: "period", 2: "half", 4: "quarter"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """What the season counts a game as, beyond its log: by a ruling, or by a row of results.csv.

    `ruling` is the last about the game; `row` is None for a game that results.csv does not list.
    """

    result: Result
    ruling: Ruling | None = None
    row: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldGame:
    """One game to be told.

    `events` are those that stand, amended and without what was taken back, in the order of the
    game. `home` and `away` are the names of the sides. `official` is there where a result was
    certified; `state` and `events` are then those that were. `settled` is there where a ruling
    or results.csv says what the game counts as.
    """

    game: GameId
    home: str
    away: str
    rules: GameRules
    state: GameState
    events: tuple[Event, ...]
    reader: Reader = "everybody"
    official: Official | None = None
    settled: Settled | None = None

    @property
    def has_entries(self) -> bool:
        """Whether anything stands that was written down, beyond what was taken back."""
        return any(not isinstance(one.what, Retracted) for one in self.events)

    @property
    def was_played(self) -> bool:
        """Whether a period was begun, by what is recorded."""
        return bool(self.state.by_period)

    def event(self, wanted: EventId | None) -> Event | None:
        """Return the event of that identity, or None where it is not among those that stand."""
        return next((one for one in self.events if one.id == wanted), None)


def standing(events: Iterable[Event]) -> tuple[Event, ...]:
    """Return the events that stand, amended, in the order of the game."""
    found, _ = distinct(events)
    return tuple(sorted(corrected(found).events, key=_order))


def _order(event: Event) -> Key:
    """Return where an event is told; what has no place in the game comes last of its second."""
    return place(event) if is_played(event) else (*event.at, len(FIRST), event.id)


def side_name(told: ToldGame, side: Side | None) -> str:
    """Return the name of a side; "a side" where nobody knows which."""
    match side:
        case "home":
            return told.home
        case "away":
            return told.away
        case None:
            return "a side"


def other(side: Side | None) -> Side | None:
    """Return the side that a side plays against."""
    return None if side is None else "away" if side == "home" else "home"


def player(number: int | None) -> str:
    """Return a player as people say it: "number 7"."""
    return "a player without a number" if number is None else f"number {number}"


def period_name(rules: GameRules, period: int) -> str:
    """Return the name of a period: "first half", "second period of overtime"."""
    if period == BEFORE:
        return "before kick-off"
    if period == KICKS:
        return "kicks from the mark"
    if period > rules.periods:
        extra = period - rules.periods
        if rules.overtime_periods == 1 and extra == 1:
            return "overtime"
        return f"{_ordinal(extra)} period of overtime"
    if rules.periods == 1:
        return "game"
    return f"{_ordinal(period)} {_NAMES.get(rules.periods, 'period')}"


def length(told: ToldGame, period: int) -> int:
    """Return how long a period is in seconds; the first may be shorter by what was waited."""
    whole = told.rules.seconds_of(period)
    if period != 1 or all(one.code != "clock_shortened" for one in told.state.statements):
        return whole
    waits = (one.at.clock for one in told.events if isinstance(one.what, GotReady))
    return max(whole - max(waits, default=0), 0)


def minute(told: ToldGame, at: Moment) -> str:
    """Return the minute as a scorecard shows it: "1" for 0:00 to 0:59, "22+1" past the time.

    It counts through from one period to the next; what comes before a period is in its first
    minute. Empty before kick-off and for kicks.
    """
    if at.period in (BEFORE, KICKS):
        return ""
    before = sum(length(told, one) for one in range(1, at.period)) // 60
    last = length(told, at.period) // 60
    now = max(at.clock, 0) // 60 + 1
    return f"{before + now}" if now <= last else f"{before + last}+{now - last}"


def when(told: ToldGame, at: Moment) -> str:
    """Return a moment in words: "in the second half at 14:00, minute 37".

    Where the rulebook counts down it is "in the second half with 8:00 left, minute 37".
    """
    if at.period == BEFORE:
        return _before(at)
    if at.period == KICKS:
        return f"at kick {at.clock} from the mark" if at.clock > 0 else "in kicks from the mark"
    if at.clock < 0:
        return f"{minutes(-at.clock)} before {the_period(told.rules, at.period)}"
    name, past = the_period(told.rules, at.period), at.clock - length(told, at.period)
    if past == 0:
        return f"at the end of {name}"
    if past > 0:
        return f"{minutes(past)} past the end of {name}, minute {minute(told, at)}"
    clock = f"at {minutes(at.clock)}"
    if told.rules.book.game.counts == "down":
        clock = f"with {minutes(-past)} left"
    return f"in {name} {clock}, minute {minute(told, at)}"


def _before(at: Moment) -> str:
    if at.clock == 0:
        return "at the scheduled start"
    return (
        f"{minutes(abs(at.clock))} {'after' if at.clock > 0 else 'before'} the scheduled start"
    )


def when_written(told: ToldGame, event: Event) -> str:
    """Return the moment of an event in words, as far as somebody wrote it down.

    A goal without a minute has its period; of a yellow, a red or a protest nothing is known.
    """
    if isinstance(event.what, Certified | Reopened):
        return "afterwards"
    if is_before(event):
        return "before the game"
    if is_timed(event):
        return when(told, event.at)
    if isinstance(event.what, Goal):
        return f"in {the_period(told.rules, event.at.period)}, {NO_MINUTE}"
    return NO_MINUTE


def is_before(event: Event | None) -> bool:
    """Tell whether an entry is of before the game, without a time that somebody wrote down."""
    return (
        event is not None
        and event.at == Moment(BEFORE, 0)
        and not isinstance(event.what, ShortAtStart | GotReady)
    )


def is_timed(event: Event | None) -> bool:
    """Tell whether the clock of an event is more than a place for it."""
    what = None if event is None else event.what
    return not isinstance(what, Goal | Cautioned | SentOff | Protested) or what.timed


def ended_when(told: ToldGame, ending: Ending) -> str:
    """Return when a game ended: about, where goals without a minute brought its end.

    Only a mercy rule and a first goal of overtime end a game by the clock of a goal.
    """
    period = ending.at.period
    if ending.at == Moment(BEFORE, 0):
        return "before the game"
    if ending.how not in ("mercy", "golden_goal") or period not in untimed_periods(told):
        return when(told, ending.at)
    if ending.how == "golden_goal":
        return f"in {the_period(told.rules, period)}, {NO_MINUTE}"
    return f"in {the_period(told.rules, period)}, about minute {minute(told, ending.at)}"


def untimed_periods(told: ToldGame) -> frozenset[int]:
    """Return the periods in which the order of the goals is not known."""
    return frozenset(goal.at.period for goal in told.state.goals if not goal.timed)


def until(told: ToldGame, at: Moment) -> str:
    """Return until when in words: "until 14:00 in the second half"."""
    name, left = the_period(told.rules, at.period), length(told, at.period) - at.clock
    if left <= 0:
        return f"until the end of {name}"
    if told.rules.book.game.counts == "down":
        return f"until {minutes(left)} is left in {name}"
    return f"until {minutes(at.clock)} in {name}"


def the_period(rules: GameRules, period: int) -> str:
    """Return a period within a sentence: "the second half", "overtime"."""
    name = period_name(rules, period)
    return name if name == "overtime" else f"the {name}"


def minutes(seconds: int) -> str:
    """Return seconds as a clock shows them: "14:05"; "-0:01" for a second before."""
    whole, rest = divmod(abs(seconds), 60)
    return f"{'-' if seconds < 0 else ''}{whole}:{rest:02}"


def seconds_left(told: ToldGame, at: Moment) -> int:
    """Return how much of the game's time is left at a moment, overtime not counted before it."""
    rules = told.rules
    last = rules.periods if at.period <= rules.periods else rules.last_period
    rest = sum(length(told, one) for one in range(at.period + 1, last + 1))
    return max(length(told, at.period) - at.clock, 0) + rest


def score_at(told: ToldGame, at: Moment) -> Score:
    """Return the score that counts, as of a moment and with what happened at it."""
    counted = [goal.side for goal in told.state.goals if goal.counts and goal.at <= at]
    return Score(counted.count("home"), counted.count("away"))


def running(goals: Iterable[GoalLine]) -> dict[EventId, Score | None]:
    """Return the score after each goal that counts; None in a period with goals without a minute.

    Which of the goals of such a period came first, nobody knows.
    """
    every = tuple(goals)
    unknown = {goal.at.period for goal in every if not goal.timed}
    home, away, after = 0, 0, dict[EventId, Score | None]()
    for goal in every:
        if goal.counts:
            home, away = home + (goal.side == "home"), away + (goal.side == "away")
            is_known = goal.at.period not in unknown
            after[goal.event] = Score(home, away) if is_known else None
    return after


def kicks_taken(told: ToldGame) -> tuple[tuple[Event, KickTaken, bool], ...]:
    """Return every kick from the mark in its order, and whether it counts as things stand."""
    aside = {asked.event for asked in told.state.questions if not asked.counts}
    return tuple(
        (event, event.what, event.id not in aside)
        for event in told.events
        if isinstance(event.what, KickTaken)
    )


def _ordinal(number: int) -> str:
    return ORDINALS[number - 1] if number <= len(ORDINALS) else f"{number}th"
