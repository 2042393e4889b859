"""Answers a model with HiGHS, which relaxes whole numbers to prove what must be at least."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, chain
from typing import Final

import highspy
import numpy as np
from numpy.random import Generator
from numpy.typing import NDArray

from wholeball.solvers.timetable.rows import ENDLESS, Rows

LARGE: Final = 20_000
"""From how many columns on the interior point method is faster, and its answer good enough."""
PRICED: Final = 8_000
"""The same where only prices are asked for, of which any will do."""


FIRST_NODES: Final = 20
TILT: Final = 0.1
"""By how much costs are tilted at most; costs are whole numbers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """The least cost with fractions, what each column is, and what one more of it adds."""

    cost: float
    values: NDArray[np.float64]
    adds: NDArray[np.float64]


def relaxed(rows: Rows, *, seconds: float = 1e9) -> Relaxed | None:
    """Return the least that a model costs with fractions allowed; None where it has no answer.

    Raises:
        TimeoutError: it took longer than it may.
    """
    solver = _relaxed(rows, seconds, LARGE)
    if solver is None:
        return None
    found = solver.getSolution()
    return Relaxed(
        cost=solver.getInfo().objective_function_value + rows.always,
        values=np.array(found.col_value),
        adds=np.array(found.col_dual),
    )


def prices(rows: Rows, *, seconds: float = 1e9) -> NDArray[np.float64] | None:
    """Return what each row's side is worth where fractions are allowed; None as in `relaxed`.

    Raises:
        TimeoutError: it took longer than it may.
    """
    solver = _relaxed(rows, seconds, PRICED)
    return None if solver is None else np.array(solver.getSolution().row_dual)


def leaning(rows: Rows, columns: Sequence[int], draws: Generator) -> Relaxed | None:
    """Return the least with fractions where the costs of these columns are tilted by chance.

    It is near one corner, by interior points; its cost is by the costs as they are, and may be
    a hair above the least. None where the model has no answer.
    """
    solver = loaded(rows)
    solver.setOptionValue("solver", "ipm")
    solver.setOptionValue("run_crossover", "off")
    costs = np.array(rows.costs, dtype=np.float64)
    tilted = costs.copy()
    tilted[columns] += TILT * draws.random(len(columns))
    solver.changeColsCost(len(costs), np.arange(len(costs), dtype=np.int32), tilted)
    if not _is_solved(solver):
        return None
    found = solver.getSolution()
    values = np.array(found.col_value)
    return Relaxed(
        cost=float(costs @ values) + rows.always, values=values, adds=np.array(found.col_dual)
    )


def _relaxed(rows: Rows, seconds: float, large: int) -> highspy.Highs | None:
    """Solve by interior points where a model is large, to a corner only if that ends in doubt."""
    solver = loaded(rows)
    solver.setOptionValue("time_limit", seconds)
    if len(rows.costs) > large:
        solver.setOptionValue("solver", "ipm")
        solver.setOptionValue("run_crossover", "off")
    return solver if _is_solved(solver) else None


def _is_solved(solver: highspy.Highs) -> bool:
    """Solve a relaxation; tell whether it has an answer."""
    solver.run()
    if solver.getModelStatus() == highspy.HighsModelStatus.kUnknown:
        solver.setOptionValue("run_crossover", "on")
        solver.run()
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return False
    if status != highspy.HighsModelStatus.kOptimal:
        raise TimeoutError(f"no relaxation within its time: {status}")
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """An answer in whole numbers, what it costs, and the steps that it took to find."""

    values: Sequence[int]
    cost: int
    steps: int


def whole(rows: Rows, *, seconds: float | None, good_enough: float) -> Whole | None:
    """Return the best answer in whole numbers that HiGHS finds; it stops at a good enough one.

    Without seconds its first nodes are its limit, so that every machine answers alike.
    """
    solver = loaded(rows, range(len(rows.costs)))
    if seconds is None:
        solver.setOptionValue("mip_max_nodes", FIRST_NODES)
    else:
        solver.setOptionValue("time_limit", seconds)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("objective_target", good_enough - rows.always)
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    return Whole(
        values=[round(value) for value in solver.getSolution().col_value],
        cost=round(info.objective_function_value) + rows.always,
        steps=info.simplex_iteration_count,
    )


def loaded(rows: Rows, whole: Sequence[int] = ()) -> highspy.Highs:
    """Return HiGHS with a model in it; the columns of `whole` are whole numbers."""
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(rows.costs), len(rows.rows)
    lp.col_cost_ = np.array(rows.costs, dtype=np.float64)
    lp.col_lower_ = np.zeros(len(rows.costs))
    lp.col_upper_ = np.array(rows.tops, dtype=np.float64)
    lp.row_lower_ = _limits([row.low for row in rows.rows])
    lp.row_upper_ = _limits([row.high for row in rows.rows])
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    sizes = (len(row.columns) for row in rows.rows)
    lp.a_matrix_.start_ = np.array(list(accumulate(sizes, initial=0)))
    lp.a_matrix_.index_ = np.array(list(chain.from_iterable(row.columns for row in rows.rows)))
    lp.a_matrix_.value_ = np.array(
        list(chain.from_iterable(row.coefficients for row in rows.rows)), dtype=np.float64
    )
    if whole:
        kinds = [highspy.HighsVarType.kContinuous] * len(rows.costs)
        for column in whole:
            kinds[column] = highspy.HighsVarType.kInteger
        lp.integrality_ = kinds
    solver = _Quiet()
    solver.passModel(lp)
    return solver


class _Quiet(highspy.Highs):
    """HiGHS without its banner, which it writes to the terminal before it can be told not to."""

    def __init__(self) -> None:
        super(highspy.Highs, self).__init__()
        self.setOptionValue("output_flag", False)  # noqa: FBT003 - HiGHS takes it by place


def _limits(sides: list[int]) -> NDArray[np.float64]:
    """Return the sides of rows as HiGHS reads them: without a limit is infinite."""
    limits = np.array(sides, dtype=np.float64)
    limits[limits >= ENDLESS] = highspy.kHighsInf
    limits[limits <= -ENDLESS] = -highspy.kHighsInf
    return limits
