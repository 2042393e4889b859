"""Adds the games that count up into every team's totals, exactly, in whole numbers."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType
from typing import TypeVar

import numpy as np

from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import ConductPoints
from wholeball.season.count import Deduction, Flags, Games, Whole
from wholeball.season.result import CardCounts, How, Result

_V = TypeVar("_V")


def _none() -> Mapping[TeamId, _V]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Lots:
    """Teams in the order in which they were drawn, best first, and the label of the draw."""

    label: str
    order: tuple[TeamId, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OutsideFigures:
    """What can part teams and does not come from the table's games; all of it is optional.

    `ranking` is a position elsewhere (1 is best), or else `coefficients` is a number (the
    highest is best). `discipline_points`: the fewest is best. `cards` are totals over the
    season that stand in for those of the results. `play_offs` count in no table. Of several
    `lots` that hold all the level teams, the one given last decides. A team of a lower tier (0
    where none is given) stands above all of a higher one, whatever it has. What concerns teams
    of other tables is passed over.
    """

    ranking: Mapping[TeamId, int] = field(default_factory=_none)
    coefficients: Mapping[TeamId, Decimal] = field(default_factory=_none)
    discipline_points: Mapping[TeamId, int] = field(default_factory=_none)
    cards: Mapping[TeamId, CardCounts] = field(default_factory=_none)
    play_offs: Sequence[Result] = ()
    lots: Sequence[Lots] = ()
    tiers: Mapping[TeamId, int] = field(default_factory=_none)

    def __post_init__(self) -> None:
        """Refuse two outside rankings at once: they may differ."""
        if self.ranking and self.coefficients:
            raise ValueError("give a ranking or coefficients, not both")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """Totals of every team; each column has shape (teams,).

    `points` are less what was `deducted`.
    """

    played: Whole
    won: Whole
    drawn: Whole
    lost: Whole
    goals_for: Whole
    goals_against: Whole
    points: Whole
    deducted: Whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """All that the criteria read. `teams` are in the order of their identities.

    `results` that are `left_out` count nowhere. `games` and `play_offs` are None where only figures are
    known, not games. An average of fewer than `ratings_least` ratings is none. `costs` are
    what conduct costs, if any criterion says so. Teams that are `out` stand last. `per_game`
    divides what adds up over games by the games played.
    """

    teams: tuple[TeamId, ...]
    tally: Tally
    outside: OutsideFigures
    results: Sequence[Result] = ()
    left_out: frozenset[How] = frozenset()
    games: Games | None = None
    play_offs: Games | None = None
    ratings_least: int = 1
    costs: ConductPoints | None = None
    out: Collection[TeamId] = ()
    per_game: bool = False


def added(index: Whole, values: Whole | Flags, teams: int) -> Whole:
    """Return the sum of `values` by team, shape (teams,), exact in 64 bits."""
    totals = np.zeros(teams, dtype=np.int64)
    np.add.at(totals, index, values.astype(np.int64, copy=False))
    return totals


def both_sides(games: Games, home: Whole | Flags, away: Whole | Flags, teams: int) -> Whole:
    """Return by team the sum of `home` over its home games and `away` over its away games."""
    return added(games.home, home, teams) + added(games.away, away, teams)


def tally(games: Games, deductions: Iterable[Deduction], index: Mapping[TeamId, int]) -> Tally:
    """Return every team's totals. O(games + teams)."""
    n = len(index)
    deducted = _deducted(deductions, index)
    played = np.bincount(games.home, minlength=n) + np.bincount(games.away, minlength=n)
    won = both_sides(games, games.home_won, games.away_won, n)
    lost = both_sides(games, games.away_won, games.home_won, n)
    if games.both_lost.any():
        lost += both_sides(games, games.both_lost, games.both_lost, n)
    return Tally(
        played=played.astype(np.int64, copy=False),
        won=won,
        drawn=played - won - lost,
        lost=lost,
        goals_for=both_sides(games, games.home_goals, games.away_goals, n),
        goals_against=both_sides(games, games.away_goals, games.home_goals, n),
        points=both_sides(games, games.home_points, games.away_points, n) - deducted,
        deducted=deducted,
    )


def _deducted(deductions: Iterable[Deduction], index: Mapping[TeamId, int]) -> Whole:
    totals = np.zeros(len(index), dtype=np.int64)
    for deduction in deductions:
        if deduction.team not in index:
            raise ValueError(f"{deduction.team} has a deduction but is not in the table")
        totals[index[deduction.team]] += deduction.points
    return totals
