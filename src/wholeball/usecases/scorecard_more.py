"""Reads what few scorecards hold: scorers, who played, protests; and writes it as it is typed."""

import re
from collections import Counter
from collections.abc import Callable, Iterable
from typing import Final, TypeVar

from pydantic_core import PydanticCustomError

from wholeball.game.paper import PaperGoal, PaperPlayer, player_of
from wholeball.game.rules import GameRules
from wholeball.reports.game_told import the_period
from wholeball.usecases.scorecard_answers import Unclear, side_of
from wholeball.usecases.scorecard_minutes import minute_text, parted, period_and_minute

_T = TypeVar("_T")
_GOAL: Final = re.compile(
    r"(h|home|a|away)\s*(?:\b|(?=\d))(\d{1,2}|\?)?(?:[\s,]+(.*))?", re.IGNORECASE | re.ASCII
)
_HOW: Final = {"": (False, False), "own": (True, False), "pen": (False, True)}
_NUMBERS: Final = re.compile(r"[\d\s,]+", re.ASCII)


def goal_as(period: int, rules: GameRules) -> Callable[[str], PaperGoal | None]:
    """Return what reads a scorer of a period: side, number, minute if known, own or pen."""

    def read(answer: str) -> PaperGoal | None:
        if not answer:
            return None
        found = _GOAL.fullmatch(answer)
        minute, how = parted((found[3] or "").strip()) if found else ("", "?")
        if found is None or how.strip().lower() not in _HOW:
            raise Unclear(
                "Give h or a, a number of at most two digits, the minute if it is known, and own "
                "or pen where it was, such as h9 pen."
            )
        within, minute_of_it = period_and_minute(minute, rules)
        if within not in (None, period):
            raise Unclear(f"{minute} is no minute of {the_period(rules, period)}.")
        own, penalty = _HOW[how.strip().lower()]
        return PaperGoal(
            side=side_of(found[1]),
            period=period,
            minute=minute_of_it,
            number=int(found[2]) if found[2] and found[2] != "?" else None,
            own=own,
            penalty=penalty,
        )

    return read


def goal_lines(goals: Iterable[PaperGoal], period: int, rules: GameRules) -> str:
    """Return what is typed for the scorers of a period, one a line: "h9 31 pen"."""
    return "\n".join(_goal_line(one, rules) for one in goals if one.period == period)


def _goal_line(one: PaperGoal, rules: GameRules) -> str:
    minute = minute_text(one.period, one.minute, rules) if one.minute else ""
    how = "own" if one.own else "pen" if one.penalty else ""
    rest = " ".join(filter(None, (minute, how)))
    number = one.number if one.number is not None else "?" if rest else ""
    return f"{one.side[0]}{number} {rest}".strip()


def players_on(line: str) -> tuple[PaperPlayer, ...] | None:
    """Return who stands on a line: numbers with commas or spaces between, or one name."""
    if not line:
        return None
    given: list[int | str] = [line]
    if _NUMBERS.fullmatch(line):
        given = [int(one) for one in re.split(r"[\s,]+", line.strip(" ,"))]
    try:
        return tuple(map(player_of, given))
    except PydanticCustomError as refused:
        raise Unclear(
            "Give numbers of 0 to 99 with commas between, or one name a line, such as Noor "
            "Zephirou=9 for a shirt that was given out at the gate."
        ) from refused


def player_lines(players: Iterable[PaperPlayer]) -> str:
    """Return what is typed for who played: the numbers on one line, then a name a line."""
    every = tuple(players)
    numbers = ", ".join(str(one.number) for one in every if not one.name)
    names = (
        one.name if one.number is None else f"{one.name}={one.number}"
        for one in every
        if one.name
    )
    return "\n".join(filter(None, (numbers, *names)))


def in_order(typed: Iterable[_T], was: tuple[_T, ...]) -> tuple[_T, ...]:
    """Return what was typed in the order that was kept, where nothing else differs."""
    found = tuple(typed)
    return was if Counter(found) == Counter(was) else found
