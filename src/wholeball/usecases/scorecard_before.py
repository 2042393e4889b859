"""Says what stands in brackets where a scorecard is entered again, and keeps what did not change."""

from collections import Counter
from collections.abc import Mapping
from typing import Any, Final, TypeVar

from wholeball.game.paper import PaperCard, PaperGoal, PaperKicks, PaperYellow
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.reports.game_statements import cited
from wholeball.reports.game_told import period_name

_Shown = TypeVar("_Shown", bound=PaperYellow)
_MOST: Final = 60
"""Letters of a text that stand in brackets."""
WAYS: Final = {
    "": "full time",
    "m": "mercy",
    "f": "forfeit",
    "d": "default",
    "b": "broken off",
}
_LETTERS: Final = {"mercy": "m", "forfeit": "f", "default": "d", "broken_off": "b"}


def way(ended: tuple[str, ...]) -> str:
    """Return the letter of how a game ended, empty for full time."""
    return _LETTERS[ended[0]] if ended else ""


def cut(text: str) -> str:
    """Return a text on one line, cut where it is long."""
    line = " ".join(text.split())
    return line if len(line) <= _MOST else f"{line[:_MOST]} ..."


def score(was: PaperCard, period: int, rules: GameRules) -> Score | None:
    """Return what a card had for a period; overtime comes after the rulebook's periods."""
    scores = was.periods if period <= rules.periods else was.overtime
    index = (period if period <= rules.periods else period - rules.periods) - 1
    return scores[index] if index < len(scores) else None


def scorers(was: PaperCard, scores: tuple[Score, ...]) -> tuple[tuple[PaperGoal, ...], int]:
    """Return a card's scorers, at most as many as there are goals now, and how many are lost."""
    counts: Counter[tuple[str, int]] = Counter()
    kept = []
    for goal in was.goals:
        counts[goal.side, goal.period] += 1
        made = scores[goal.period - 1] if goal.period <= len(scores) else Score(0, 0)
        if counts[goal.side, goal.period] <= (made.home if goal.side == "home" else made.away):
            kept.append(goal)
    return tuple(kept), len(was.goals) - len(kept)


def with_takers(kicks: PaperKicks, was: PaperKicks | None) -> PaperKicks:
    """Return kicks with those who took them, of each side whose kicks are as many as before."""
    if was is None:
        return kicks
    same = {
        "home_numbers": was.home_numbers if len(kicks.home) == len(was.home) else (),
        "away_numbers": was.away_numbers if len(kicks.away) == len(was.away) else (),
    }
    return kicks.model_copy(update=same)


def shown_line(one: PaperYellow) -> str:
    """Return a yellow or red without its minute, as the terminal has it: "h7 dissent"."""
    number = one.number if one.number is not None else "?" if one.reason else ""
    return f"{one.side[0]}{number} {one.reason}".strip()


def minute(one: PaperYellow, rules: GameRules) -> str:
    """Return what of a yellow or red is in the file alone: when, and that it was no player."""
    to = "" if one.to == "player" else f", {one.to.replace('_', ' ')}"
    if one.period is None:
        return to
    return f"{to}, minute {one.minute} of the {period_name(rules, one.period)}"


def with_minute(shown: _Shown, was: _Shown) -> _Shown:
    """Return a yellow or red of the same number with what was not typed of it, as the minute."""
    if (shown.side, shown.number) != (was.side, was.number) or shown.minute is not None:
        return shown
    return was.model_copy(update={"reason": shown.reason})


def given_ratings(ending: Mapping[str, Any], home: str, away: str, rules: GameRules) -> str:
    """Return in words which ratings the rulebook gives; empty where people give them."""
    by = ending.get("forfeit") or ending.get("default")
    if by is None or rules.book.ratings.by == "nobody":
        return ""
    given = rules.book.ratings.given
    fault = given.forfeiting if ending.get("forfeit") else given.defaulting
    first = fault if by.by in ("home", "both") else given.ready
    second = fault if by.by in ("away", "both") else given.ready
    ref = cited(rules.book, "ratings.given")[0]
    return (
        f"Ratings are not asked: the rulebook gives {home} {first:f} and {away} {second:f} "
        f"({ref})."
    )
