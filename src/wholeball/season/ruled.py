"""Changes a result by the last ruling about its game; what was played is kept beside it."""

from collections.abc import Iterable
from dataclasses import replace

from wholeball.kernel.identity import GameId
from wholeball.season.result import How, Result
from wholeball.season.ruling import Ruling


def holding(rulings: Iterable[Ruling]) -> dict[GameId, Ruling]:
    """Return the ruling that holds about each game: the one with the highest number."""
    return {one.game: one for one in sorted(rulings, key=lambda one: one.number)}


def as_ruled(result: Result, ruling: Ruling | None) -> Result:
    """Return a result that was written down plainly, as a ruling about its game leaves it."""
    if ruling is None:
        return result
    played = result.played_score
    if result.how == "played" and played is None:
        played = (result.home_goals, result.away_goals)
    return changed(result, ruling, played=played, before=result.how)


def changed(
    result: Result, ruling: Ruling, *, played: tuple[int, int] | None, before: How | None
) -> Result:
    """Return a result as a ruling leaves it, given the score that was played, if any was.

    `before` is how it counted until then, None where it had no result.

    A game that stands after it was awarded has the score that was played again.
    """
    if ruling.ruled == "stands":
        if result.how == "awarded" and played is not None:
            result = replace(
                result,
                how="played",
                home_goals=played[0],
                away_goals=played[1],
                played_score=None,
            )
        return replace(result, ruling=ruling.number)
    home, away = ruling.goals or (result.home_goals, result.away_goals)
    return replace(
        result,
        how=ruling.ruled,
        by=ruling.by,
        home_goals=home,
        away_goals=away,
        played_score=played,
        kicks=None,
        ruling=ruling.number,
        before=before,
    )
