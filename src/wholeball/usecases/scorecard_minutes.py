"""Reads the minute of a game as people write it on a scorecard, and writes it so: "31", "22+1".

It counts through from the kick-off without the interval, as the pages of a game have it.
"""

import re
from typing import Final

from wholeball.game.paper_goals import seconds_of
from wholeball.game.rules import GameRules
from wholeball.usecases.scorecard_answers import Unclear

MOST: Final = 99
"""Minutes of one period that a scorecard can say."""
UNKNOWN: Final = "?"
"""What stands for a minute that nobody knows, where the reason begins like one."""
_GIVEN = re.compile(r"(\d{1,3})(?:\+(\d{1,2})|:([0-5]\d))?['\u2019\u2032]?", re.ASCII)
_LIKE_ONE = re.compile(r"(\d[\d:+.]*['\u2019\u2032]?|\?)(?=[\s,:]|$)[\s,:]*", re.ASCII)


def parted(said: str) -> tuple[str, str]:
    """Return the minute that a text begins with, empty where it has none, and the rest."""
    found = _LIKE_ONE.match(said)
    if found is None:
        return "", said
    token = found[1].rstrip(":.")
    return ("" if token == UNKNOWN else token), said[found.end() :]


def period_and_minute(token: str, rules: GameRules) -> tuple[int | None, int | None]:
    """Return the period of a minute and the minute of it; neither for none.

    Raises:
        Unclear: the game has no such minute.
    """
    if not token:
        return None, None
    found = _GIVEN.fullmatch(token)
    if found is not None:
        whole, added = int(found[1]), int(found[2] or 0)
        at = _placed(whole + (found[3] is not None), added, rules)
        if at is not None:
            return at
    raise Unclear(
        f"{token} is no minute of this game, which has 1 to {_last(rules)}. Count from the "
        f"kick-off without the interval, such as {such_a_minute(rules)}; what came after the time of {_name(rules)}, "
        f"such as {_minutes(rules, 1)}+1."
    )


def minute_text(period: int | None, minute: int | None, rules: GameRules) -> str:
    """Return a minute of a period as people write it; empty for none."""
    if period is None or minute is None:
        return ""
    before = sum(_minutes(rules, one) for one in range(1, period))
    last = _minutes(rules, period)
    if minute <= last:
        return f"{before + minute}"
    return f"{before + last}+{minute - last}"


def with_minute_first(reason: str, minute: str) -> str:
    """Return a minute and a reason as they are typed, so that each is read back as it is."""
    has_none = not minute and _LIKE_ONE.match(reason) is not None
    return f"{UNKNOWN if has_none else minute} {reason}".strip()


def minutes_hint(rules: GameRules) -> str:
    """Return how a minute is written, with an example of the game's own."""
    return (
        "Minutes are counted from the kick-off without the interval; past the time of "
        f"{_name(rules)}, {_minutes(rules, 1)}+1."
    )


def such_a_minute(rules: GameRules) -> str:
    """Return a minute of the game to show how one is written, well after the first half."""
    return f"{-(-_last(rules) * 7 // 10)}"


def _name(rules: GameRules) -> str:
    return {1: "the game", 2: "a half", 4: "a quarter"}.get(rules.periods, "a period")


def _placed(whole: int, added: int, rules: GameRules) -> tuple[int, int] | None:
    before = 0
    for period in range(1, rules.last_period + 1):
        last = _minutes(rules, period)
        minute = whole - before
        if 1 <= minute <= last and (not added or minute == last):
            return (period, minute + added) if minute + added <= MOST else None
        before += last
    return None


def _last(rules: GameRules) -> int:
    return sum(_minutes(rules, one) for one in range(1, rules.last_period + 1))


def _minutes(rules: GameRules, period: int) -> int:
    return seconds_of(rules, period) // 60
