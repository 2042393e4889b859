"""Says in few words what an official forgets at the field, computed from the rulebook."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from wholeball.league.fixture import Stage
from wholeball.rulebook.book import Path, Rulebook
from wholeball.rulebook.sentence import listed
from wholeball.rulebook.tables.time import Stops

_STOPS: Final[dict[Stops, str]] = {
    "goal": "goal",
    "caution": "yellow",
    "sending_off": "red",
    "penalty": "penalty",
    "injury": "injury",
    "substitution": "substitution",
    "ball_out": "ball out",
    "hold": "hold",
}
_CHANCE: Final = {
    "none": "",
    "in_or_by_penalty_area": "in or by penalty area",
    "attacking_half": "in attackers' half",
    "anywhere": "anywhere",
}
_CHOOSES: Final = {
    "opponents": "if opponents wait",
    "supervisor": "if supervisor waits",
    "always_waited": "is waited",
}
_LEVEL: Final = {
    "draw": "a draw",
    "overtime": "overtime, then a draw",
    "kicks": "kicks",
    "overtime_then_kicks": "overtime, then kicks",
}
_OVERTIME_ENDS: Final = {"full_time": "played in full", "golden_goal": "first goal ends it"}
_LATE: Final = {
    "until_the_end": "to the end",
    "until_half_time": "until half-time ends",
    "not_after_kick_off": "not after kick-off",
}


@dataclass(frozen=True, slots=True)
class Reminder:
    """One thing to remember, and the article that says so; none where it is no article."""

    says: str
    ref: str = ""


CARE: Final = (
    Reminder("Thunder heard or flash seen: stop."),
    Reminder("Suspected head injury: out for the day."),
)
"""Care comes first; local policy goes further wherever it does."""


def has_overtime(book: Rulebook, stage: Stage) -> bool:
    """Tell whether a level game of that stage may go to overtime."""
    is_played = book.overtime.periods > 0 and book.overtime.minutes > 0
    return is_played and _then(book, stage) in ("overtime", "overtime_then_kicks")


def has_kicks(book: Rulebook, stage: Stage) -> bool:
    """Tell whether a level game of that stage may go to kicks from the mark."""
    return _then(book, stage) in ("kicks", "overtime_then_kicks")


def reminders(book: Rulebook, stage: Stage) -> tuple[Reminder, ...]:
    """Return what to remember in a game of a stage, in the order in which it is needed."""
    return (
        *CARE,
        Reminder(_sides(book), _ref(book, "sides")),
        Reminder(_grace(book), _ref(book, "forfeit.grace")),
        Reminder(f"Late players: {_LATE[book.check_in.late]}", _ref(book, "check_in")),
        Reminder(_length(book), _ref(book, "game")),
        Reminder(_clock(book), _ref(book, "game.stoppages")),
        Reminder(_end(book), _ref(book, "game.period_end")),
        *_hold(book),
        Reminder(_mercy(book), _ref(book, "mercy")),
        Reminder(f"Level: {_level(book, stage)}", _ref(book, "ties")),
        *_after(book, stage),
    )


def _ref(book: Rulebook, path: Path) -> str:
    return book.article(path).ref


def _then(book: Rulebook, stage: Stage) -> str:
    return book.ties.league if stage == "league" else book.ties.play_off


def _sides(book: Rulebook) -> str:
    return (
        f"Start with {book.sides.minimum_to_start}, go on with {book.sides.minimum_to_continue}"
    )


def _grace(book: Rulebook) -> str:
    grace = book.forfeit.grace
    if grace.minutes == 0:
        return "Short side: nobody is waited for"
    runs = "off the game" if grace.clock_runs else "not off the game"
    return f"Short side: {grace.minutes} min {_CHOOSES[grace.chosen_by]}, {runs}"


def _length(book: Rulebook) -> str:
    game = book.game
    pause = f", {game.interval_minutes} between" if game.periods > 1 else ""
    return f"{game.periods} \N{MULTIPLICATION SIGN} {game.minutes} min{pause}"


def _clock(book: Rulebook) -> str:
    stops = tuple(_STOPS[stop] for stop in book.game.stoppages.clock_stops_for)
    is_added = book.game.stoppages.lost_time == "added"
    lost = "Lost time added" if is_added else "No time added"
    if book.game.clock == "stopped":
        return f"Clock stops with play. {lost}"
    if not stops:
        return f"Clock runs on. {lost}"
    return f"Clock runs, save {listed(stops, last='or')}. {lost}"


def _end(book: Rulebook) -> str:
    end = book.game.period_end
    part = "Half" if book.game.periods == 2 else "Period"
    if end.at == "chance_played_out" and end.chance != "none":
        penalty = ", penalty too" if end.penalty_completed else ", no penalty"
        return f"{part}: chance {_CHANCE[end.chance]} played out{penalty}"
    penalty = "save a penalty" if end.penalty_completed else "even at a penalty"
    return f"{part} ends on time, {penalty}"


def _hold(book: Rulebook) -> Iterator[Reminder]:
    if book.sides.goalkeeper != "none":
        hold = book.goalkeeper.hold
        then = hold.then.replace("_", " ")
        yield Reminder(f"In hands {hold.seconds} s, then {then}", _ref(book, "goalkeeper.hold"))


def _mercy(book: Rulebook) -> str:
    rungs = tuple(f"{one.lead} up at {one.minutes_left}:00 left" for one in book.mercy.ladder)
    return f"Mercy: {listed(rungs, last='or')}" if rungs else "No mercy rule"


def _level(book: Rulebook, stage: Stage) -> str:
    is_idle = _then(book, stage).startswith("overtime") and not has_overtime(book, stage)
    if is_idle:
        return "kicks" if has_kicks(book, stage) else "a draw"
    return _LEVEL[_then(book, stage)]


def _after(book: Rulebook, stage: Stage) -> Iterator[Reminder]:
    if has_overtime(book, stage):
        over = book.overtime
        length = f"{over.periods} \N{MULTIPLICATION SIGN} {over.minutes} min"
        says = f"Overtime {length}, {_OVERTIME_ENDS[over.ends]}"
        yield Reminder(says, _ref(book, "overtime"))
    if has_kicks(book, stage):
        kicks = book.kicks
        more = ", then in pairs" if kicks.sudden_death else ", then a draw"
        yield Reminder(f"Kicks: {kicks.each} each{more}", _ref(book, "kicks"))
