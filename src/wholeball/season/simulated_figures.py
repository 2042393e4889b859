"""Says what each game played or left adds to a figure, in thousands of simulated seasons."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final, cast

import numpy as np

from wholeball.rulebook.criteria import (
    AmongLevel,
    CappedDifference,
    Criterion,
    LevelFigure,
    criterion_name,
)
from wholeball.season.count import Games, Points, Whole, worth_by_game
from wholeball.season.scores import AWAY, HOME, Cells

LEVEL: Final[dict[LevelFigure, Criterion]] = {
    "h2h_points": "points",
    "h2h_wins": "wins",
    "h2h_difference": "difference",
    "h2h_goals": "goals",
    "h2h_away_goals": "away_goals",
}
_MOST_BITS: Final = 46
"""The bits that figures compared together may take: level, team and they share 63."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """Simulated ends of one season: what is settled, and the cells of the games left.

    Args:
        teams: how many teams there are.
        played: the games that count already, as the table counts them.
        deducted: points off each team, shape (teams,).
        left: home and away of each game left, by the teams' positions.
        cells: the score of each game left, shape (games left, seasons).
        points: what a game is worth.
        worth: what a figure of each team is multiplied by, so that teams with unequal numbers of
            games are compared by the game, shape (teams,); ones where totals are compared.
    """

    teams: int
    played: Games
    deducted: Whole
    left: Sequence[tuple[int, int]]
    cells: Cells
    points: Points
    worth: Whole

    @property
    def seasons(self) -> int:
        """How many ends were simulated."""
        return int(self.cells.shape[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure that adds up over games: what each game played or left brings each side.

    `deducts` is what each point off a team takes from it; mini-tables never read it. `per_game`
    is what each team's total is multiplied by so that it is compared by the game, shape
    (teams,); None where totals are compared as all others of the ends are.
    """

    home: Whole
    away: Whole
    home_of_cell: Whole
    away_of_cell: Whole
    deducts: int = 0
    per_game: Whole | None = None


def not_simulated(criteria: Sequence[Criterion]) -> tuple[str, ...]:
    """Return the criteria of which no figure is simulated; chance stands in for them."""
    return tuple(criterion_name(one) for one in criteria if not is_simulated(one))


def is_simulated(criterion: Criterion) -> bool:
    """Tell whether every figure of a criterion adds up over simulated games."""
    if isinstance(criterion, AmongLevel):
        return all(figure in LEVEL for figure in criterion.among_level)
    return isinstance(criterion, CappedDifference) or criterion in _SUMS


def figure_of(ends: Ends, criterion: Criterion) -> Figure:
    """Return the figure of a criterion that is simulated and no mini-table."""
    if isinstance(criterion, CappedDifference):
        most = criterion.capped_difference
        margin = np.clip(ends.played.home_goals - ends.played.away_goals, -most, most)
        of_cell = np.clip(HOME - AWAY, -most, most)
        return Figure(home=margin, away=-margin, home_of_cell=of_cell, away_of_cell=-of_cell)
    return _SUMS[cast("str", criterion)](ends)


def _points(ends: Ends) -> Figure:
    points = ends.points
    won, lost = HOME > AWAY, HOME < AWAY
    return Figure(
        home=ends.played.home_points,
        away=ends.played.away_points,
        home_of_cell=np.select([won, lost], [points.win, points.loss], points.draw),
        away_of_cell=np.select([lost, won], [points.win, points.loss], points.draw),
        deducts=1,
    )


def _points_per_game(ends: Ends) -> Figure:
    counts = _games_of_each(ends).tolist()
    worth = np.array(worth_by_game(counts), dtype=np.int64)
    return replace(_points(ends), per_game=worth if (worth != worth[0]).any() else None)


def _wins(ends: Ends) -> Figure:
    return Figure(
        home=ends.played.home_won.astype(np.int64),
        away=ends.played.away_won.astype(np.int64),
        home_of_cell=(HOME > AWAY).astype(np.int64),
        away_of_cell=(HOME < AWAY).astype(np.int64),
    )


def _difference(ends: Ends) -> Figure:
    margin = ends.played.home_goals - ends.played.away_goals
    return Figure(home=margin, away=-margin, home_of_cell=HOME - AWAY, away_of_cell=AWAY - HOME)


def _goals(ends: Ends) -> Figure:
    return Figure(
        home=ends.played.home_goals,
        away=ends.played.away_goals,
        home_of_cell=HOME,
        away_of_cell=AWAY,
    )


def _away_goals(ends: Ends) -> Figure:
    return Figure(
        home=np.zeros_like(ends.played.home_goals),
        away=ends.played.away_goals * ~ends.played.neutral,
        home_of_cell=np.zeros_like(HOME),
        away_of_cell=AWAY,
    )


_SUMS: Final[dict[str, Callable[[Ends], Figure]]] = {
    "points": _points,
    "points_per_game": _points_per_game,
    "wins": _wins,
    "difference": _difference,
    "goals": _goals,
    "away_goals": _away_goals,
}


def packed_of(ends: Ends, figures: Sequence[Figure]) -> Figure:
    """Return one figure that compares as these do, one after the other.

    Each is multiplied by more than twice what those after it can add up to, so whole numbers
    compare as the list does.
    """
    packed, room = _no_figure(ends), 1
    for one in reversed(figures):
        packed = Figure(
            home=packed.home + room * one.home,
            away=packed.away + room * one.away,
            home_of_cell=packed.home_of_cell + room * one.home_of_cell,
            away_of_cell=packed.away_of_cell + room * one.away_of_cell,
            deducts=packed.deducts + room * one.deducts,
        )
        room <<= _bits(ends, one)
    return packed


def narrowest(ends: Ends, figures: Sequence[Figure]) -> type[np.int32 | np.int64]:
    """Return the numbers that hold these figures at once, and a level of 256 before them."""
    if any(one.per_game is not None for one in figures):
        return np.int64
    return np.int32 if _bits_of(ends, figures) + 8 <= 30 else np.int64


def fit_together(ends: Ends, figures: Sequence[Figure]) -> bool:
    """Tell whether figures can be compared at once in 64 bits; one alone always is.

    One that is compared by the game where others are not stays alone.
    """
    if len(figures) == 1:
        return True
    is_alone = any(one.per_game is not None for one in figures)
    return not is_alone and _bits_of(ends, figures) <= _MOST_BITS


def _bits_of(ends: Ends, figures: Sequence[Figure]) -> int:
    return sum(_bits(ends, one) for one in figures) + int(ends.worth.max()).bit_length()


def _no_figure(ends: Ends) -> Figure:
    nothing, no_cell = np.zeros_like(ends.played.home_goals), np.zeros_like(HOME)
    return Figure(home=nothing, away=nothing, home_of_cell=no_cell, away_of_cell=no_cell)


def _bits(ends: Ends, figure: Figure) -> int:
    """Return the bits of more than twice what any team's total can be, above or below nought."""
    sides = (figure.home, figure.away, figure.home_of_cell, figure.away_of_cell)
    largest = max(int(np.abs(one).max(initial=0)) for one in sides)
    taken = int(np.abs(ends.deducted).max(initial=0)) if figure.deducts else 0
    return (2 * (largest * _most_games(ends) + taken) + 1).bit_length()


def _most_games(ends: Ends) -> int:
    """Return how many games the team with the most has in all, played and left."""
    return int(_games_of_each(ends).max(initial=0))


def _games_of_each(ends: Ends) -> Whole:
    """Return how many games each team has in all, played and left."""
    left = np.array(ends.left, dtype=np.int64).ravel()
    sides = np.concatenate((ends.played.home, ends.played.away, left))
    return np.bincount(sides, minlength=ends.teams)
