"""Turns results into what the table counts, by the rulebook's forfeit rules."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import lcm
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.result import How, Result

Whole: TypeAlias = NDArray[np.int64]
Flags: TypeAlias = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Points:
    """What a game is worth in the table."""

    win: int = 3
    draw: int = 1
    loss: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ForfeitCounting:
    """How a game that one side gave up counts; the goals are those of the opponents first.

    Without `counts_in_difference` the game is won and lost but brings no goals. With
    `played_score_if_worse` a score that had been played stands where its margin is worse for
    the side at fault (FIFA Disciplinary Code on forfeits, from memory). `points_winner` and
    `points_loser` are None where they are those of a win and of a loss.
    """

    goals_for: int
    goals_against: int = 0
    counts_in_difference: bool = True
    played_score_if_worse: bool = False
    points_winner: int | None = None
    points_loser: int | None = None

    def __post_init__(self) -> None:
        """Refuse a score that would not be a win for the opponents."""
        if not 0 <= self.goals_against < self.goals_for:
            raise ValueError(f"a forfeit is won, got {self.goals_for} to {self.goals_against}")


Double: TypeAlias = Literal["both_lose", "annulled"]
LEFT_OUT: Final[dict[Double, frozenset[How]]] = {
    "both_lose": frozenset(("annulled",)),
    "annulled": frozenset(("annulled", "double_forfeit")),
}
THREE_NIL = ForfeitCounting(goals_for=3)
"""3-0 against the side at fault: eleven-a-side's usual score (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Counting:
    """How games that were not played out count.

    A `double` forfeit is lost 0-0 by both sides, each with the points of a forfeit's loser, or
    counts nowhere.
    """

    points: Points = field(default_factory=Points)
    forfeit: ForfeitCounting = THREE_NIL
    default: ForfeitCounting = THREE_NIL
    double: Double = "both_lose"

    @property
    def left_out(self) -> frozenset[How]:
        """What counts nowhere."""
        return LEFT_OUT[self.double]

    def counts(self, result: Result) -> bool:
        """Tell whether a game counts at all."""
        return result.how not in self.left_out


@dataclass(frozen=True, slots=True, kw_only=True)
class Deduction:
    """Points that a ruling takes off a team's total (fewer than 0: gives it).

    `round` is the first round whose table shows it. Mini-tables never count it.
    """

    team: TeamId
    points: int
    why: str
    ref: str
    round: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Games:
    """Every game that counts, in columns; each has shape (games,).

    `home` and `away` are the teams' indexes. A double forfeit is lost by both sides.
    """

    home: Whole
    away: Whole
    home_goals: Whole
    away_goals: Whole
    home_points: Whole
    away_points: Whole
    home_won: Flags
    away_won: Flags
    both_lost: Flags
    neutral: Flags


def games(
    results: Sequence[Result],
    index: Mapping[TeamId, int],
    counting: Counting,
    *,
    by_kicks: bool = False,
) -> Games:
    """Return the games that count, in the order given; the others are left out. O(n).

    With `by_kicks` a level game is won by the side whose kicks decided it.

    Raises:
        ValueError: a game is listed twice, or a team of a game that counts is not in `index`.
    """
    _refuse_doubles(results)
    left_out = counting.left_out
    kept = [result for result in results if result.how not in left_out]
    counted = _as_played(kept, index, counting.points, by_kicks=by_kicks)
    if any(result.how not in ("played", "awarded") for result in kept):
        for position, result in enumerate(kept):
            _count_given_up(counted, position, result, counting)
    return counted


def _refuse_doubles(results: Sequence[Result]) -> None:
    if len({result.game for result in results}) == len(results):
        return
    seen: set[GameId] = set()
    for result in results:
        if result.game in seen:
            raise ValueError(f"game {result.game} is listed twice")
        seen.add(result.game)


def _as_played(
    kept: Sequence[Result], index: Mapping[TeamId, int], points: Points, *, by_kicks: bool
) -> Games:
    home_goals = _whole([result.home_goals for result in kept])
    away_goals = _whole([result.away_goals for result in kept])
    margin = home_goals - away_goals
    if by_kicks:
        margin = np.where(margin == 0, _kicks(kept), margin)
    home_won, away_won = margin > 0, margin < 0
    return Games(
        home=_indexes([result.home for result in kept], index),
        away=_indexes([result.away for result in kept], index),
        home_goals=home_goals,
        away_goals=away_goals,
        home_points=_points(home_won, away_won, points),
        away_points=_points(away_won, home_won, points),
        home_won=home_won,
        away_won=away_won,
        both_lost=np.zeros(len(kept), dtype=np.bool_),
        neutral=np.array([result.neutral for result in kept], dtype=np.bool_),
    )


def _kicks(kept: Sequence[Result]) -> Whole:
    """Return by how many kicks the home side won; 0 where none were taken."""
    taken = [result.kicks or (0, 0) for result in kept]
    return _whole([home - away for home, away in taken])


def _whole(values: list[int]) -> Whole:
    return np.array(values, dtype=np.int64)


def _indexes(names: list[TeamId], index: Mapping[TeamId, int]) -> Whole:
    try:
        return _whole([index[name] for name in names])
    except KeyError as missing:
        raise ValueError(f"team {missing} plays but is not in the table") from None


def _points(won: Flags, lost: Flags, points: Points) -> Whole:
    return np.select([won, lost], [points.win, points.loss], points.draw).astype(np.int64)


def _count_given_up(counted: Games, i: int, result: Result, counting: Counting) -> None:
    match result.how:
        case "double_forfeit":
            _count_double_forfeit(counted, i, counting)
        case "forfeit":
            _count_win(counted, i, result, rule=counting.forfeit, points=counting.points)
        case "default":
            _count_win(counted, i, result, rule=counting.default, points=counting.points)
        case "played" | "awarded" | "annulled":
            pass


def _count_double_forfeit(counted: Games, i: int, counting: Counting) -> None:
    lost = _points_of_loser(counting.forfeit, counting.points)
    counted.home_goals[i] = counted.away_goals[i] = 0
    counted.home_points[i] = counted.away_points[i] = lost
    counted.home_won[i] = counted.away_won[i] = False
    counted.both_lost[i] = True


def _count_win(
    counted: Games, i: int, result: Result, *, rule: ForfeitCounting, points: Points
) -> None:
    """Write a win of the opponents of `result.by` into row i."""
    won, lost = _score(result, rule)
    win = points.win if rule.points_winner is None else rule.points_winner
    loss = _points_of_loser(rule, points)
    home = result.by == "away"
    counted.home_won[i], counted.away_won[i] = home, not home
    counted.home_goals[i], counted.away_goals[i] = (won, lost) if home else (lost, won)
    counted.home_points[i], counted.away_points[i] = (win, loss) if home else (loss, win)


def _points_of_loser(rule: ForfeitCounting, points: Points) -> int:
    return points.loss if rule.points_loser is None else rule.points_loser


def _score(result: Result, rule: ForfeitCounting) -> tuple[int, int]:
    """Return the goals that count for the winner and for the side at fault."""
    if not rule.counts_in_difference:
        return 0, 0
    ruled = (rule.goals_for, rule.goals_against)
    if result.played_score is None or not rule.played_score_if_worse:
        return ruled
    home, away = result.played_score
    played = (home, away) if result.by == "away" else (away, home)
    return played if played[0] - played[1] > ruled[0] - ruled[1] else ruled


def worth_by_game(games: Sequence[int]) -> tuple[int, ...]:
    """Return what makes totals comparable by the game, in whole numbers."""
    common = lcm(*(max(one, 1) for one in games))
    return tuple(common // max(one, 1) for one in games)
