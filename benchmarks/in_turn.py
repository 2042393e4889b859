"""Times what is measured and its reference in turn, so that both meet the same machine."""

from collections.abc import Callable
from time import perf_counter
from typing import TypeAlias

Measured: TypeAlias = tuple[str, str, float, float]
"""An operation, its reference, the ratio of the two, and the most that it may be."""


def in_turn(
    reference: Callable[[], object], subject: Callable[[], object], *, times: int
) -> tuple[list[float], list[float]]:
    """Return the seconds of both, of each run so many."""
    referred, worked = [], []
    for _ in range(times):
        referred.append(timed(reference))
        worked.append(timed(subject))
    return referred, worked


def timed(work: Callable[[], object]) -> float:
    """Return the seconds that a piece of work takes."""
    begun = perf_counter()
    work()
    return perf_counter() - begun
