"""Proves what any timetable must cost at least, by nights alone.

It reads the question by itself and shares nothing with the check or with the parts of the
model. A kind that it does not express costs nothing here and forbids nothing: that makes the
bound lower, never wrong. Nor is the number taken from the solver: it is added up again from the
prices (dual values) that the solver gives the rows, and any prices prove something.
"""

from math import ceil
from typing import Final

import numpy as np
from numpy.typing import NDArray

from wholeball.planning.problem import TimetableProblem
from wholeball.solvers.timetable import highs
from wholeball.solvers.timetable.least import Least
from wholeball.solvers.timetable.rows import ENDLESS, Rows

UNLIMITED: Final = 1e9
"""More seconds than any bound takes."""


def bound(problem: TimetableProblem, *, seconds: float = UNLIMITED) -> float:
    """Return what any plan costs at least; infinity where there is none, even in fractions.

    A bound that could not be proven within the time is 0: no plan costs less.
    """
    if not problem.pairings:
        return 0.0
    least = Least(problem)
    if least.is_impossible:
        return float("inf")
    try:
        prices = highs.prices(least.rows, seconds=seconds)
    except TimeoutError:
        return 0.0
    if prices is None:
        return float("inf")
    return max(0.0, ceil(proven(least.rows, prices) - 1e-6))


def proven(rows: Rows, prices: NDArray[np.float64]) -> float:
    """Add up what prices of rows prove: a row's side times its price, and what columns save.

    A price on a side without a limit proves nothing and is dropped.
    """
    columns = np.concatenate([np.asarray(row.columns, dtype=np.int64) for row in rows.rows])
    values = np.concatenate(
        [np.asarray(row.coefficients, dtype=np.float64) for row in rows.rows]
    )
    sizes = np.array([len(row.columns) for row in rows.rows])
    lows = np.array([row.low for row in rows.rows], dtype=np.float64)
    highs_ = np.array([row.high for row in rows.rows], dtype=np.float64)
    sides = np.where(prices > 0, lows, highs_)
    kept = np.where(np.abs(sides) >= ENDLESS, 0.0, prices)
    left = np.array(rows.costs, dtype=np.float64)
    np.subtract.at(left, columns, np.repeat(kept, sizes) * values)
    saved = np.minimum(left, 0.0) * np.array(rows.tops, dtype=np.float64)
    return float(kept @ np.where(kept == 0.0, 0.0, sides) + saved.sum() + rows.always)
