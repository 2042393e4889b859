"""Settles what becomes of a team's games when it leaves the league."""

from collections.abc import Collection, Iterable
from dataclasses import replace
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.result import Result

Games: TypeAlias = Literal["annulled", "kept", "rest_forfeited"]
"""What becomes of its games: none counts; the late ones do not; it forfeits the late ones."""


def without(
    results: Iterable[Result], team: TeamId, games: Games, *, late: Collection[GameId]
) -> list[Result]:
    """Return the results once `team` has left; `late` are those listed after it was out.

    A game that a ruling has annulled already stays so.
    """
    return [
        _settled(one, team, games, is_late=one.game in late) if _plays(one, team) else one
        for one in results
    ]


def _plays(result: Result, team: TeamId) -> bool:
    return team in (result.home, result.away)


def _settled(result: Result, team: TeamId, games: Games, *, is_late: bool) -> Result:
    match games:
        case "annulled":
            return _annulled(result)
        case "kept":
            return _annulled(result) if is_late else result
        case "rest_forfeited":
            return _forfeited(result, team) if is_late else result


def _annulled(result: Result) -> Result:
    return replace(result, how="annulled", by=None, played_score=_as_played(result))


def _forfeited(result: Result, team: TeamId) -> Result:
    """Return the game forfeited by the team, which no longer could be ready for it."""
    if result.how == "annulled":
        return result
    by: Literal["home", "away"] = "home" if result.home == team else "away"
    return replace(result, how="forfeit", by=by, played_score=_as_played(result))


def _as_played(result: Result) -> tuple[int, int] | None:
    if result.how == "played":
        return (result.home_goals, result.away_goals)
    return result.played_score


def forfeited_by_both(result: Result) -> Result:
    """Return the game between two teams that are out, which neither could be ready for."""
    if result.how == "annulled":
        return result
    return replace(result, how="double_forfeit", by=None, played_score=_as_played(result))
