"""Answers a model with CP-SAT, which finds plans."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from threading import Event, Thread
from time import monotonic
from typing import Final, Literal, TypeAlias

from ortools.sat.python import cp_model

from wholeball.solvers.timetable.rows import Rows

Status: TypeAlias = Literal["optimal", "feasible", "impossible", "unknown"]
OnBetter: TypeAlias = Callable[[int, float], None]
"""Told of each better answer: its cost and the bound."""
ENOUGH: Final = 1e9
"""More seconds, or work, than any search takes."""
FILLING: Final = 1.0
"""How long, in CP-SAT's own measure, it is tried whether a hint is an answer."""
LOOKS: Final = 0.1
"""How often, in seconds, it is looked whether the search is to stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How long CP-SAT may search, and from what cost on it need not go on.

    After `soon` seconds any answer is good enough.
    """

    seconds: float = ENOUGH
    work: float = ENOUGH
    workers: int = 2
    seed: int = 0
    good_enough: float = -1e18
    soon: float = ENOUGH


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a solver says: the values of all columns, if it has any, their cost and the bound."""

    status: Status
    values: Sequence[int] = ()
    cost: int = 0
    bound: float = float("-inf")
    work: float = 0.0


def solved(
    rows: Rows,
    limits: Limits,
    *,
    hint: Mapping[int, int] | None = None,
    on_better: OnBetter | None = None,
    stop: Callable[[], bool] | None = None,
) -> Answer:
    """Return the best answer that CP-SAT finds; `hint` is where it begins, by columns."""
    model = modelled(rows)
    if hint:
        _begin(model, hint, limits)
    solver = _solver()
    solver.parameters.random_seed = limits.seed
    solver.parameters.num_workers = limits.workers
    solver.parameters.max_time_in_seconds = limits.seconds
    solver.parameters.max_deterministic_time = limits.work
    watch = _Watch(rows, limits, on_better)
    begins = monotonic()

    def is_to_stop() -> bool:
        is_soon = watch.has_found and monotonic() - begins >= limits.soon
        return is_soon or (stop is not None and stop())

    with _looking(solver, is_to_stop):
        status = solver.solve(model, watch)
    work = solver.response_proto.deterministic_time
    if status == cp_model.INFEASIBLE:
        return Answer(status="impossible", work=work)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer(status="unknown", work=work)
    return Answer(
        status="optimal" if status == cp_model.OPTIMAL else "feasible",
        values=tuple(solver.response_proto.solution),
        cost=round(solver.objective_value) + rows.always,
        bound=solver.best_objective_bound + rows.always,
        work=work,
    )


def _solver() -> cp_model.CpSolver:
    """Return a solver that leaves Ctrl-C to whoever asks: its own way forgets the plan so far."""
    solver = cp_model.CpSolver()
    solver.parameters.catch_sigint_signal = False
    return solver


def _begin(model: cp_model.CpModel, hint: Mapping[int, int], limits: Limits) -> None:
    """Give a model its hint, and what it leaves open of an answer where it leads to one."""
    begin = model.proto.solution_hint
    begin.vars.extend(list(hint))
    begin.values.extend(list(hint.values()))
    solver = _solver()
    solver.parameters.random_seed = limits.seed
    solver.parameters.num_workers = 1
    solver.parameters.fix_variables_to_their_hinted_value = True
    solver.parameters.max_deterministic_time = FILLING
    if solver.solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        values = solver.response_proto.solution
        rest = [one for one in range(len(values)) if one not in hint]
        begin.vars.extend(rest)
        begin.values.extend([values[one] for one in rest])


@contextmanager
def _looking(solver: cp_model.CpSolver, stop: Callable[[], bool]) -> Iterator[None]:
    """End a search when it is to stop, even where it finds nothing to tell of."""
    done = Event()

    def look() -> None:
        while not done.wait(LOOKS):
            if stop():
                solver.stop_search()

    watcher = Thread(target=look, daemon=True)
    watcher.start()
    try:
        yield
    finally:
        done.set()
        watcher.join()


def modelled(rows: Rows) -> cp_model.CpModel:
    """Return a model in CP-SAT's own form."""
    model = cp_model.CpModel()
    proto = model.proto
    for top in rows.tops:
        proto.variables.add().domain.extend([0, top])
    for row in rows.rows:
        linear = proto.constraints.add().linear
        linear.vars.extend(row.columns)
        linear.coeffs.extend(row.coefficients)
        linear.domain.extend([row.low, row.high])
    priced = [(index, cost) for index, cost in enumerate(rows.costs) if cost]
    proto.objective.vars.extend(index for index, _ in priced)
    proto.objective.coeffs.extend(cost for _, cost in priced)
    return model


class _Watch(cp_model.CpSolverSolutionCallback):
    def __init__(self, rows: Rows, limits: Limits, on_better: OnBetter | None) -> None:
        super().__init__()
        self._rows, self._limits, self._on_better = rows, limits, on_better
        self.has_found = False

    def on_solution_callback(self) -> None:
        """Tell of a better answer; end the search where it is good enough."""
        self.has_found = True
        cost = round(self.objective_value) + self._rows.always
        if self._on_better is not None:
            self._on_better(cost, self.best_objective_bound + self._rows.always)
        if cost <= self._limits.good_enough:
            self.stop_search()
