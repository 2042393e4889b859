"""Settles what becomes of a team's games when it leaves the league."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.result import Result

Removal: TypeAlias = Literal["annul", "keep", "forfeit_rest"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixture:
    """A game that is still to be played."""

    game: GameId
    round: int
    home: TeamId
    away: TeamId


def without(
    results: Iterable[Result],
    team: TeamId,
    how: Removal,
    *,
    rest: Iterable[Fixture] = (),
) -> list[Result]:
    """Return the results once `team` has left: annulled, kept, or its `rest` forfeited.

    `rest` is read for "forfeit_rest" only; fixtures of other teams in it are passed over.
    """
    match how:
        case "annul":
            return [_annulled(one) if _plays(one, team) else one for one in results]
        case "keep":
            return list(results)
        case "forfeit_rest":
            return [*results, *(_forfeited(one, team) for one in rest if _plays(one, team))]


def _plays(game: Result | Fixture, team: TeamId) -> bool:
    return team in (game.home, game.away)


def _annulled(result: Result) -> Result:
    played = result.played_score
    if result.how == "played":
        played = (result.home_goals, result.away_goals)
    return replace(result, how="annulled", by=None, played_score=played)


def _forfeited(fixture: Fixture, team: TeamId) -> Result:
    return Result(
        game=fixture.game,
        round=fixture.round,
        home=fixture.home,
        away=fixture.away,
        how="forfeit",
        by="home" if fixture.home == team else "away",
    )
