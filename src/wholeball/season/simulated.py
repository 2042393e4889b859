"""Ranks the teams of thousands of simulated seasons at once, by the rulebook's criteria."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any, Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from wholeball.rulebook.criteria import AmongLevel, Criterion
from wholeball.season.count import Flags, Whole
from wholeball.season.simulated_figures import (
    LEVEL,
    Ends,
    Figure,
    figure_of,
    fit_together,
    is_simulated,
    narrowest,
    packed_of,
)
from wholeball.season.tally import both_sides

Levels: TypeAlias = NDArray[np.uint8 | np.int16]
"""How many teams of its season stand above each, shape (teams, seasons)."""
_MOST_NARROW: Final = 256
"""Teams of which each can have so few above it that a byte counts them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """The order of every simulated season.

    `rank` is how many teams stand above each, shape (teams, seasons). `before_lots` is the same
    before chance: teams that share it were parted by chance.
    """

    rank: Levels
    before_lots: Levels


def rank_ends(
    ends: Ends, criteria: Sequence[Criterion], tiers: Whole, lots: np.random.Generator
) -> Ranked:
    """Return the order of every season; tiers of shape (teams,) or (teams, seasons) come first.

    Criteria are asked as in the standings: each of the teams that all before it left level, and
    mini-tables of the games among those. What no criterion parts, or what is not simulated
    would part, is parted by chance, season by season alike whatever the others bring.
    """
    groups = _Groups(ends.teams, tiers)
    secret = int(lots.integers(0, 1 << 62))
    level = groups.start(tiers if tiers.ndim > 1 else None, ends.seasons)
    is_even = tiers.ndim == 1
    at = groups.crowded(level)
    for step in _steps(ends, criteria):
        if not len(at):
            break
        is_all = len(at) == ends.seasons
        held = level if is_all else level[:, at]
        if isinstance(step, AmongLevel):
            finer = _by_mini_tables(ends, step, held, at, groups)
        else:
            finer = groups.finer(held, _sums(ends, step, at), is_even=is_even)
        level, is_even = _written(level, at, finer), False
        at = groups.crowded(level)
    rank = level
    if len(at):
        rank = level.copy()
        rank[:, at] = groups.finer(level[:, at], _drawn(secret, at, ends.teams))
    return Ranked(rank=rank, before_lots=level)


def _written(level: Levels, at: Whole, finer: Levels) -> Levels:
    """Return the levels with those of the seasons `at` made finer; the array is written over."""
    if len(at) == level.shape[1]:
        return finer
    level[:, at] = finer
    return level


def _drawn(secret: int, seasons: Whole, teams: int) -> Whole:
    """Return a number for every team and season, none of a season twice, shape (teams, seasons).

    It is the SplitMix64 of the season's and the team's number (Steele and others 2014, from
    memory), so that it hangs on nothing that was drawn before.
    """
    number = seasons.astype(np.uint64) * np.uint64(teams)
    mixed = number + np.arange(teams, dtype=np.uint64)[:, None] + np.uint64(secret)
    mixed *= np.uint64(0x9E3779B97F4A7C15)
    mixed = (mixed ^ (mixed >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    mixed = (mixed ^ (mixed >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    mixed ^= mixed >> np.uint64(31)
    drawn = (mixed >> np.uint64(32)).astype(np.int64) * teams
    return drawn + np.arange(teams)[:, None]


class _Groups:
    """The teams that tiers keep apart in every season, so that only teams of one are compared."""

    def __init__(self, teams: int, tiers: Whole) -> None:
        fixed = tiers if tiers.ndim == 1 else np.zeros(teams, dtype=np.int64)
        self._teams = teams
        self._members = [np.flatnonzero(fixed == one) for one in np.unique(fixed)]
        sizes = [len(one) for one in self._members]
        self._firsts = [sum(sizes[:number]) for number in range(len(sizes))]
        self._narrow = np.uint8 if teams <= _MOST_NARROW else np.int16

    @property
    def pairs(self) -> Iterator[tuple[int, int]]:
        """Every two teams that are compared."""
        return (pair for each in self._members for pair in combinations(each.tolist(), 2))

    def start(self, tiers: Whole | None, seasons: int) -> Levels:
        """Return the levels before any question; `tiers` are those of each season, if any."""
        level = np.zeros((self._teams, seasons), dtype=self._narrow)
        for members, first in zip(self._members, self._firsts, strict=True):
            level[members] = first
        return level if tiers is None else self.finer(level, -tiers.astype(np.int64))

    def crowded(self, level: Levels) -> Whole:
        """Return the seasons in which two teams share a level: there fewer stand above others."""
        strict = self._teams * (self._teams - 1) // 2
        return np.flatnonzero(np.add.reduce(level, axis=0, dtype=np.int32) != strict)

    def finer(self, level: Levels, worth: Whole, *, is_even: bool = False) -> Levels:
        """Return finer levels: within a level the most worth first, shape (teams, seasons).

        `worth` is written over. Levels that are `is_even` are the same for all that are compared.
        Two teams are compared at a time, in arrays that stay in the cache.
        """
        if not is_even:
            _before(worth, level)
        finer = np.zeros(level.shape, dtype=self._narrow)
        one_above = np.empty(level.shape[1], dtype=np.bool_)
        as_number = one_above.view(np.uint8)
        for one, other in self.pairs:
            np.greater(worth[other], worth[one], out=one_above)
            finer[one] += as_number
            np.greater(worth[one], worth[other], out=one_above)
            finer[other] += as_number
        for members, first in zip(self._members, self._firsts, strict=True):
            if first:
                finer[members] += self._narrow(first)
        return finer


def _before(worth: Whole, level: Levels) -> None:
    """Put the level before the worth, so that both compare as one number."""
    bits = (int(worth.max(initial=0)) - int(worth.min(initial=0))).bit_length()
    room = 8 * worth.dtype.itemsize - 2
    if int(level.max(initial=0)).bit_length() + bits > room:
        raise ValueError(f"levels and worths take more than {room} bits")
    for team in range(len(worth)):
        worth[team] -= level[team].astype(worth.dtype) << bits


def _steps(
    ends: Ends, criteria: Sequence[Criterion]
) -> Iterator[tuple[Figure, ...] | AmongLevel]:
    """Yield what to ask, in order; figures that follow one another are asked at once if they fit."""
    together: list[Figure] = []
    for criterion in criteria:
        if not is_simulated(criterion):
            continue
        if isinstance(criterion, AmongLevel):
            if together:
                yield tuple(together)
            together = []
            yield criterion
        else:
            figure = figure_of(ends, criterion)
            if not fit_together(ends, (*together, figure)):
                yield tuple(together)
                together = []
            together.append(figure)
    if together:
        yield tuple(together)


def _sums(ends: Ends, figures: Sequence[Figure], at: Whole) -> Whole:
    """Return what these figures come to in the seasons `at`, shape (teams, seasons)."""
    packed = packed_of(ends, figures)
    before = both_sides(ends.played, packed.home, packed.away, ends.teams)
    before -= packed.deducts * ends.deducted
    number = narrowest(ends, figures) if ends.teams <= _MOST_NARROW else np.int64
    totals: NDArray[Any] = np.empty((ends.teams, len(at)), dtype=number)
    totals[:] = before[:, None]
    taking = _Taking(ends, packed, at, number)
    for game, (home, away) in enumerate(ends.left):
        totals[home] += taking.of_home(game)
        totals[away] += taking.of_away()
    worth = figures[0].per_game if figures[0].per_game is not None else ends.worth
    if (worth != 1).any():
        totals *= worth.astype(number)[:, None]
    return totals


class _Taking:
    """Looks up what the cells of a game bring, into arrays that are used again."""

    def __init__(
        self, ends: Ends, figure: Figure, at: Whole, number: type[np.int32 | np.int64]
    ) -> None:
        self._cells, self._at = ends.cells, at
        self._home: NDArray[Any] = figure.home_of_cell.astype(number)
        self._away: NDArray[Any] = figure.away_of_cell.astype(number)
        self._is_all = len(at) == ends.seasons
        self._index = np.empty(len(at), dtype=np.intp)
        self._taken: NDArray[Any] = np.empty(len(at), dtype=number)

    def of_home(self, game: int) -> Whole:
        """Return what the game brings its home team; call it before that of the away team."""
        cells = self._cells[game]
        self._index[:] = cells if self._is_all else cells[self._at]
        return self._look_up(self._home)

    def of_away(self) -> Whole:
        """Return what the same game brings its away team."""
        return self._look_up(self._away)

    def _look_up(self, of_cell: NDArray[Any]) -> Whole:
        taken: Whole = np.take(of_cell, self._index, out=self._taken, mode="clip")
        return taken


def _by_mini_tables(
    ends: Ends, step: AmongLevel, level: Levels, at: Whole, groups: _Groups
) -> Levels:
    figures = [figure_of(ends, LEVEL[one]) for one in step.among_level]
    packed = packed_of(ends, figures)
    while True:
        finer = groups.finer(level, _mini_table(ends, packed, level, at, groups))
        if not step.again or np.array_equal(finer, level):
            return finer
        level = finer


def _mini_table(ends: Ends, packed: Figure, level: Levels, at: Whole, groups: _Groups) -> Whole:
    """Return the figure of games among level teams; nought where those have not all met."""
    totals = np.zeros(level.shape, dtype=np.int64)
    for (home, away), points in _by_pair(ends, packed).items():
        inside = level[home] == level[away]
        totals[home] += inside * points[0]
        totals[away] += inside * points[1]
    taking = _Taking(ends, packed, at, np.int64)
    for game, (home, away) in enumerate(ends.left):
        inside = level[home] == level[away]
        totals[home] += inside * taking.of_home(game)
        totals[away] += inside * taking.of_away()
    totals[_have_not_met(ends, level, groups)] = 0
    return totals


def _by_pair(ends: Ends, packed: Figure) -> dict[tuple[int, int], tuple[int, int]]:
    """Return what the games played between each two teams brought both."""
    brought: dict[tuple[int, int], tuple[int, int]] = {}
    games = ends.played
    columns = (games.home, games.away, packed.home, packed.away)
    for home, away, for_home, for_away in zip(*(one.tolist() for one in columns), strict=True):
        pair = (home, away) if home < away else (away, home)
        two = (for_home, for_away) if home < away else (for_away, for_home)
        before = brought.get(pair, (0, 0))
        brought[pair] = (before[0] + two[0], before[1] + two[1])
    return brought


def _have_not_met(ends: Ends, level: Levels, groups: _Groups) -> Flags:
    """Tell for each team and season whether two of its level set have never met."""
    pairs = zip(ends.played.home.tolist(), ends.played.away.tolist(), strict=True)
    met = {frozenset(pair) for pair in (*pairs, *ends.left)}
    missing = np.zeros(level.shape, dtype=np.bool_)
    apart = [pair for pair in groups.pairs if frozenset(pair) not in met]
    if not apart:
        return missing
    for one, other in apart:
        seasons = np.flatnonzero(level[one] == level[other])
        missing[level[one][seasons], seasons] = True
    return np.asarray(
        np.take_along_axis(missing, level.astype(np.intp), axis=0), dtype=np.bool_
    )
