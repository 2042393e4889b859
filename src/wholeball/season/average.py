"""Takes the average of sportsmanship ratings, exactly; tables and the gate read this one.

A game counts once for a side, by the mean of all the ratings that the side was given in it, so
that a side rated by one official and a side rated by three weigh the same. Nothing is rounded:
3.495 is not 3.5.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from wholeball.kernel.identity import Side, TeamId
from wholeball.season.result import How, Result


@dataclass(frozen=True, slots=True, kw_only=True)
class OfGame:
    """What one side of a game is rated, as its result says."""

    team: TeamId
    side: Side
    result: Result
    value: Fraction


def mean(values: Sequence[Decimal | Fraction]) -> Fraction | None:
    """Return the exact mean, None of nothing."""
    return sum((Fraction(one) for one in values), Fraction()) / len(values) if values else None


def average(values: Sequence[Fraction], *, least: int) -> Fraction | None:
    """Return the average of a team's games, None of fewer than `least`."""
    return mean(values) if len(values) >= least else None


def of_games(
    results: Iterable[Result], teams: Collection[TeamId], *, left_out: Collection[How]
) -> dict[TeamId, list[OfGame]]:
    """Return what each team was rated, game by game, by the results that count."""
    found: dict[TeamId, list[OfGame]] = {team: [] for team in teams}
    for result in results:
        if result.how not in left_out:
            _add(found, result, "home", result.home, result.home_rating)
            _add(found, result, "away", result.away, result.away_rating)
    return found


def _add(
    found: dict[TeamId, list[OfGame]],
    result: Result,
    side: Side,
    team: TeamId,
    value: Decimal | Fraction | None,
) -> None:
    if value is not None:
        found[team].append(OfGame(team=team, side=side, result=result, value=Fraction(value)))
