"""Ranks the teams of thousands of simulated seasons at once, by the rulebook's criteria."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from wholeball.rulebook.criteria import AmongLevel, Criterion
from wholeball.season.count import Flags, Whole
from wholeball.season.simulated_figures import (
    LEVEL,
    Ends,
    Figure,
    figure_of,
    fit_together,
    is_simulated,
    packed_of,
)
from wholeball.season.tally import both_sides


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """The order of every simulated season.

    `rank` is how many teams stand above each, shape (seasons, teams). `before_lots` is the same
    before chance: teams that share it were parted by chance.
    """

    rank: Whole
    before_lots: Whole


def rank_ends(
    ends: Ends, criteria: Sequence[Criterion], tiers: Whole, lots: np.random.Generator
) -> Ranked:
    """Return the order of every season; tiers of shape (teams,) or (seasons, teams) come first.

    Criteria are asked as in the standings: each of the teams that all before it left level, and
    mini-tables of the games among those. What no criterion parts, or what is not simulated
    would part, is parted by chance.
    """
    level = np.broadcast_to(tiers, (ends.seasons, ends.teams))
    level = _finer(level, np.zeros((ends.seasons, ends.teams), dtype=np.int64))
    for step in _steps(ends, criteria):
        at = _crowded(level)
        if not len(at):
            break
        if isinstance(step, AmongLevel):
            level[at] = _by_mini_tables(ends, step, level[at], at)
        else:
            level[at] = _finer(level[at], _sums(ends, step, at))
    rank = level
    at = _crowded(level)
    if len(at):
        drawn = lots.integers(0, 1 << 31, size=(ends.seasons, ends.teams), dtype=np.int64)
        apart = drawn[at] * ends.teams + np.arange(ends.teams)
        rank = level.copy()
        rank[at] = _finer(level[at], apart)
    return Ranked(rank=rank, before_lots=level)


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
    """Return what these figures come to in the seasons `at`, shape (seasons, teams)."""
    packed = packed_of(ends, figures)
    before = both_sides(ends.played, packed.home, packed.away, ends.teams)
    before -= packed.deducts * ends.deducted
    totals = np.repeat(before[:, None], len(at), axis=1)
    is_all = len(at) == ends.seasons
    for game, (home, away) in enumerate(ends.left):
        cells = ends.cells[game] if is_all else ends.cells[game][at]
        totals[home] += packed.home_of_cell[cells]
        totals[away] += packed.away_of_cell[cells]
    return np.ascontiguousarray((totals * ends.worth[:, None]).T)


def _by_mini_tables(ends: Ends, step: AmongLevel, level: Whole, at: Whole) -> Whole:
    figures = [figure_of(ends, LEVEL[one]) for one in step.among_level]
    packed = packed_of(ends, figures)
    while True:
        finer = _finer(level, _mini_table(ends, packed, level, at))
        if not step.again or np.array_equal(finer, level):
            return finer
        level = finer


def _mini_table(ends: Ends, packed: Figure, level: Whole, at: Whole) -> Whole:
    """Return the figure of games among level teams; nought where those have not all met."""
    levels = np.ascontiguousarray(level.T)
    totals = np.zeros_like(levels)
    for (home, away), points in _by_pair(ends, packed).items():
        inside = levels[home] == levels[away]
        totals[home] += inside * points[0]
        totals[away] += inside * points[1]
    for game, (home, away) in enumerate(ends.left):
        inside = levels[home] == levels[away]
        cells = ends.cells[game][at]
        totals[home] += inside * packed.home_of_cell[cells]
        totals[away] += inside * packed.away_of_cell[cells]
    return np.where(_all_met(ends, levels), totals.T, 0)


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


def _all_met(ends: Ends, levels: Whole) -> Flags:
    """Tell for each season and team whether all of its level set have met."""
    pairs = zip(ends.played.home.tolist(), ends.played.away.tolist(), strict=True)
    met = {frozenset(pair) for pair in (*pairs, *ends.left)}
    missing = np.zeros((levels.shape[1], ends.teams), dtype=np.bool_)
    for one, other in combinations(range(ends.teams), 2):
        if frozenset((one, other)) not in met:
            seasons = np.flatnonzero(levels[one] == levels[other])
            missing[seasons, levels[one][seasons]] = True
    return np.asarray(~np.take_along_axis(missing, levels.T, axis=1), dtype=np.bool_)


def _crowded(level: Whole) -> Whole:
    """Return the seasons in which two teams share a level."""
    taken = np.zeros(level.shape, dtype=np.bool_)
    np.put_along_axis(taken, level, values=True, axis=1)
    return np.flatnonzero(~taken.all(axis=1))


def _finer(level: Whole, worth: Whole) -> Whole:
    """Return finer levels, each the number of teams above: within a level the most worth first."""
    teams = level.shape[1]
    most, least = int(worth.max(initial=0)), int(worth.min(initial=0))
    bits, low = (most - least).bit_length(), (teams - 1).bit_length()
    if int(level.max(initial=0)).bit_length() + bits + low > 62:
        raise ValueError(f"levels and worths take more than 62 bits: {bits} and {low}")
    key = (((level << bits) | (most - worth)) << low) | np.arange(teams)
    key.sort(axis=1)
    who = key & ((1 << low) - 1)
    key >>= low
    begins = np.zeros_like(key)
    begins[:, 1:] = np.where(key[:, 1:] != key[:, :-1], np.arange(1, teams), 0)
    np.maximum.accumulate(begins, axis=1, out=begins)
    finer: Whole = np.empty_like(begins)
    np.put_along_axis(finer, who, begins, axis=1)
    return finer
