"""Fits a linear mixed model by REML and solves Henderson's equations, with numpy alone.

y = X b + Z_1 u_1 + ... + Z_k u_k + e, where the u_i and e are independent with mean 0 and one
variance each. The criterion is profiled over the residual variance, so that what is searched
are the ratios of the other variances to it; each may be 0, the edge of what is possible.

Sources: Patterson and Thompson 1971 (REML), Henderson 1975 (equations), Harville 1977
(derivatives); from memory, and held against published fits in the tests.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product, repeat
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

Reals: TypeAlias = NDArray[np.float64]
_FIRST: Final = (0.0, 0.05, 0.2, 0.6, 2.0)
"""Ratios that the search may start from; the best of all combinations is taken."""
_MOST_RATIO: Final = 1e4
"""A ratio this large means that hardly any residual variance is left."""
_MOST_STEPS: Final = 200
_FLAT: Final = 1e-9
"""A slope this small, for a ratio doubled and an observation, counts as none."""
_NOTHING: Final = 1e-12
"""What is left of the squares, by those of y itself, that counts as nothing left."""
_GRID: Final = 13
_STEP: Final = 0.125
"""How many points a grid of doubt has for each variance, and their least distance."""
_NEGLIGIBLE: Final = 1e-4
"""A likelihood so small, by the greatest, is passed over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A fit. `fixed` are the b, `random` the predicted u of each Z, `variances` theirs.

    `covariance` is that of all their errors together, in that order, as if the variances were
    known and not estimated; an effect without variance has no error. `criterion` is minus
    twice the restricted log-likelihood.
    """

    fixed: Reals
    random: tuple[Reals, ...]
    variances: tuple[float, ...]
    residual: float
    covariance: Reals
    criterion: float


class NoFit(Exception):
    """The variances cannot be told apart: the data leave nothing, or too little, over."""


def fit(y: Reals, fixed: Reals, random: Sequence[Reals]) -> Fitted:
    """Return the REML fit and the best linear unbiased predictions.

    Args:
        y: shape (n,).
        fixed: X, shape (n, p), of full rank, p < n.
        random: each Z, shape (n, q).

    Raises:
        NoFit: no residual variance is left, or the search does not come to rest.
        ValueError: X is not of full rank, or has as many columns as there are observations.
    """
    if np.linalg.matrix_rank(fixed) < fixed.shape[1] or fixed.shape[1] >= len(y):
        raise ValueError(f"X of shape {fixed.shape} does not suit {len(y)} observations")
    squares = _Squares(y, fixed, random)
    ratios = _searched(squares)
    at = squares.at(ratios)
    return _henderson(squares, ratios, residual=at.left / squares.free, criterion=at.criterion)


def widened(y: Reals, fixed: Reals, random: Sequence[Reals], fitted: Fitted) -> Reals:
    """Return the covariance of a fit's errors with the doubt about the variances in it.

    It is the mean over a grid of what the variances may be, each weighed by its restricted
    likelihood, of the errors there and of how far the effects there are from those of the
    fit. The grid is even in the standard deviations, which is what is taken as equally likely.
    """
    squares = _Squares(y, fixed, random)
    found = _effects(fitted)
    grid = [
        np.array(one) for one in product(*map(_grid, fitted.variances, repeat(fitted.residual)))
    ]
    every = [squares.at(ratios) for ratios in grid]
    least = min(at.criterion for at in every)
    total, weights = np.zeros_like(fitted.covariance), 0.0
    for ratios, at in zip(grid, every, strict=True):
        weight = float(np.exp((least - at.criterion) / 2))
        if weight > _NEGLIGIBLE:
            there = _henderson(
                squares, ratios, residual=at.left / squares.free, criterion=at.criterion
            )
            off = _effects(there) - found
            total += weight * (there.covariance + np.outer(off, off))
            weights += weight
    return total / weights


def _effects(fitted: Fitted) -> Reals:
    return np.concatenate([fitted.fixed, *fitted.random])


def _grid(variance: float, residual: float) -> Reals:
    """Return ratios from 0 on, even in their roots, well past the one found and with it."""
    root = float(np.sqrt(variance / residual))
    parts = min(int(root / _STEP), 4)
    step = root / parts if parts else _STEP
    return np.asarray((np.arange(_GRID) * step) ** 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class _At:
    """The criterion at some ratios with its slope and bend, and the squares left over."""

    criterion: float
    slope: Reals
    bend: Reals
    left: float


class _Squares:
    """Holds the cross products of [X y Z]; the search needs nothing else of the data."""

    def __init__(self, y: Reals, fixed: Reals, random: Sequence[Reals]) -> None:
        self.columns = fixed.shape[1]
        self.free = len(y) - self.columns
        self.blocks = tuple(_blocks([z.shape[1] for z in random]))
        every = np.column_stack([fixed, y, *random])
        self.products = every.T @ every
        if self._left(self._swept(self.products)) <= _NOTHING * float(y @ y):
            raise NoFit

    def at(self, ratios: Reals) -> _At:
        """Return all about the criterion at these ratios. O(q^3) for q random effects."""
        whole, spread = self._whitened(ratios)
        fixed = whole[: self.columns, : self.columns]
        swept = self._swept(whole)
        left = self._left(swept)
        _, log_fixed = np.linalg.slogdet(fixed)
        criterion = spread + log_fixed + self.free * (1 + np.log(2 * np.pi * left / self.free))
        slope, bend = self._bent(swept[1:, 0], swept[1:, 1:], left)
        return _At(criterion=float(criterion), slope=slope, bend=bend, left=left)

    def _whitened(self, ratios: Reals) -> tuple[Reals, float]:
        """Return [X y Z]' V^-1 [X y Z] and log |V|, for V = I + the ratios' Z Z'."""
        start = self.columns + 1
        sizes = [block.stop - block.start for block in self.blocks]
        scale = np.sqrt(np.repeat(ratios, sizes))
        by_effect = scale[:, None] * self.products[start:]
        inner = np.eye(len(scale)) + by_effect[:, start:] * scale
        _, spread = np.linalg.slogdet(inner)
        return self.products - by_effect.T @ np.linalg.solve(inner, by_effect), float(spread)

    def _swept(self, whole: Reals) -> Reals:
        """Return what X leaves over of [y Z]."""
        p = self.columns
        return whole[p:, p:] - whole[p:, :p] @ np.linalg.solve(whole[:p, :p], whole[:p, p:])

    @staticmethod
    def _left(swept: Reals) -> float:
        return float(swept[0, 0])

    def _bent(self, r: Reals, inner: Reals, left: float) -> tuple[Reals, Reals]:
        """Return slope and bend, from Z'Py and Z'PZ."""
        sizes = len(self.blocks)
        slope, bend = np.zeros(sizes), np.zeros((sizes, sizes))
        pull = [float(r[block] @ r[block]) / left for block in self.blocks]
        for i, one in enumerate(self.blocks):
            slope[i] = np.trace(inner[one, one]) - self.free * pull[i]
            for j, other in enumerate(self.blocks):
                between = inner[one, other]
                across = float(r[one] @ between @ r[other]) / left
                bend[i, j] = self.free * (2 * across - pull[i] * pull[j]) - np.sum(between**2)
        return slope, bend


def _blocks(sizes: Sequence[int]) -> Iterator[slice]:
    start = 0
    for size in sizes:
        yield slice(start, start + size)
        start += size


def _searched(squares: _Squares) -> Reals:
    """Return the ratios with the least criterion, by Newton's method within the bounds."""
    starts = [np.array(one) for one in product(_FIRST, repeat=len(squares.blocks))]
    ratios = min(starts, key=lambda one: squares.at(one).criterion)
    for _ in range(_MOST_STEPS):
        at = squares.at(ratios)
        moves = (ratios > 0) | (at.slope < 0)
        if np.all(np.abs(at.slope * (ratios + 1e-3))[moves] < _FLAT * squares.free):
            return ratios
        ratios = _stepped(squares, ratios, at, moves)
        if ratios.max() >= _MOST_RATIO:
            break
    raise NoFit


def _stepped(squares: _Squares, ratios: Reals, at: _At, moves: NDArray[np.bool_]) -> Reals:
    """Return the ratios after one step downhill, halved until it is one."""
    step = np.zeros_like(ratios)
    step[moves] = _downhill(at.bend[np.ix_(moves, moves)], at.slope[moves], ratios[moves])
    share = 1.0
    while share > _NOTHING:
        tried = np.clip(ratios + share * step, 0, _MOST_RATIO)
        if squares.at(tried).criterion < at.criterion:
            return tried
        share /= 2
    return _nearest(ratios, step)


def _downhill(bend: Reals, slope: Reals, ratios: Reals) -> Reals:
    """Return Newton's step, or where the criterion bends the wrong way, one by the slope."""
    try:
        np.linalg.cholesky(bend)
    except np.linalg.LinAlgError:
        return -np.sign(slope) * (ratios / 2 + 0.1)
    return np.asarray(-np.linalg.solve(bend, slope), dtype=np.float64)


def _nearest(ratios: Reals, step: Reals) -> Reals:
    """Return the ratios with a step below what the criterion can tell, taken on trust."""
    return np.asarray(np.clip(ratios + step, 0, _MOST_RATIO))


def _henderson(
    squares: _Squares, ratios: Reals, *, residual: float, criterion: float
) -> Fitted:
    """Solve Henderson's equations for the effects that vary; the others are 0."""
    p, y = squares.columns, squares.columns
    sizes = [block.stop - block.start for block in squares.blocks]
    by_effect = np.repeat(ratios, sizes)
    kept = np.concatenate([np.arange(p), p + 1 + np.flatnonzero(by_effect > 0)])
    left_side = squares.products[np.ix_(kept, kept)]
    varying = by_effect[by_effect > 0]
    left_side[p:, p:] += np.diag(1 / varying)
    inverse = np.linalg.inv(left_side)
    solved = inverse @ squares.products[kept, y]
    places = np.where(kept < y, kept, kept - 1)
    whole = np.zeros(p + len(by_effect))
    whole[places] = solved
    covariance = np.zeros((len(whole), len(whole)))
    covariance[np.ix_(places, places)] = residual * inverse
    return Fitted(
        fixed=whole[:p],
        random=tuple(whole[p:][block] for block in squares.blocks),
        variances=tuple(float(ratio) * residual for ratio in ratios),
        residual=residual,
        covariance=covariance,
        criterion=criterion,
    )
