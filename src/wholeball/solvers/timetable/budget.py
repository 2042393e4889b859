"""Says how long a search may take, and what it tells on the way."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """How much a search may take: seconds by the clock, or work that is alike on every machine.

    With `work` the search is reproducible: one worker, and the solver's own deterministic
    measure as its limit.
    """

    seconds: float = 60.0
    workers: int = 2
    seed: int = 0
    work: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """Where a search is: the best plan's cost, what is proven, the seconds taken, what is left.

    `left` is in seconds, or in work where that is the budget's measure. Fields are shared out
    last: until then `best` is without what they cost, and after that it is what the plan costs.
    """

    best: int | None
    bound: float
    seconds: float
    left: float


OnProgress: TypeAlias = Callable[[Progress], None]
Stop: TypeAlias = Callable[[], bool]
