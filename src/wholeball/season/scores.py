"""Draws scores of games to come, each by one random number and a table of its scores."""

from collections.abc import Sequence
from math import exp, factorial
from typing import Final

import numpy as np
from numpy.typing import NDArray

Cells = NDArray[np.uint8]
Real = NDArray[np.float64]
SIDE: Final = 16
"""A side has 0 to 15 goals; 15 stands for 15 and more. A cell is 16 x home + away goals."""
HOME: Final = np.repeat(np.arange(SIDE, dtype=np.int64), SIDE)
AWAY: Final = np.tile(np.arange(SIDE, dtype=np.int64), SIDE)
_GOALS: Final = np.arange(SIDE, dtype=np.float64)
_WAYS: Final = np.array([factorial(goals) for goals in range(SIDE)], dtype=np.float64)
_ALL_CELLS: Final = np.arange(SIDE * SIDE, dtype=np.uint8)
_COARSE: Final = 1 << 16
_FINE: Final = 1 << 32


def chances(home: float, away: float) -> Real:
    """Return the chance of each cell where sides score `home` and `away` goals on average.

    Both are Poisson and independent. Shape (256,).
    """
    return np.outer(_poisson(home), _poisson(away)).ravel()


def _poisson(mean: float) -> Real:
    cells = exp(-mean) * mean**_GOALS / _WAYS
    cells[-1] = max(0.0, 1.0 - float(cells[:-1].sum()))
    return cells


def draw_scores(games: Sequence[Real], seasons: int, chance: np.random.Generator) -> Cells:
    """Return a cell for every game and season, shape (games, seasons).

    Each is the inverse of the game's distribution at one uniform number of 32 bits. Its upper
    half finds the cell in a table, save where a cell begins inside: there the whole number
    does. So nothing is rounded but to 2^-32.
    """
    cells = np.empty((len(games), seasons), dtype=np.uint8)
    for game, of_cells in enumerate(games):
        ends = np.minimum(np.rint(np.cumsum(of_cells) * _FINE), _FINE).astype(np.uint64)
        ends[-1] = _FINE
        _fill(cells[game], chance.integers(0, _FINE, size=seasons, dtype=np.uint32), ends)
    return cells


def _fill(cells: Cells, drawn: NDArray[np.uint32], ends: NDArray[np.uint64]) -> None:
    whole = (ends >> np.uint64(16)).astype(np.int64)
    table = np.repeat(_ALL_CELLS, np.diff(whole, prepend=0))
    is_split = np.zeros(_COARSE, dtype=np.bool_)
    is_split[whole[(ends & np.uint64(0xFFFF)) > 0]] = True
    coarse = (drawn >> np.uint32(16)).astype(np.intp)
    np.take(table, coarse, out=cells, mode="clip")
    split = np.flatnonzero(np.take(is_split, coarse, mode="clip"))
    cells[split] = np.searchsorted(ends, drawn[split].astype(np.uint64), side="right")
