"""States the answer to a timetable's question: a plan with its proof, or why there is none."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId
from wholeball.planning.problem import Placement

Proof: TypeAlias = Literal["optimal", "gap", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """A rule that must hold and does not: by which games, and in words."""

    rule: str
    games: tuple[GameId, ...]
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A wish that is not met: how often, what it costs, and in words."""

    rule: str
    about: str
    times: int
    cost: int
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What a check found; an empty `broken` is a pass."""

    broken: tuple[Broken, ...]
    lines: tuple[Line, ...]

    @property
    def total(self) -> int:
        """What the plan costs: the sum of its lines."""
        return sum(line.cost for line in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A plan that breaks no must, with the least that any plan can cost.

    `bound` is proven by a model that shares nothing with the check; `proof` says whether the
    plan is the best there is, within a known distance of it, or neither.
    """

    placements: tuple[Placement, ...]
    total: int
    bound: float
    proof: Proof
    lines: tuple[Line, ...] = ()

    @property
    def room(self) -> float:
        """How much of the cost could be saved at most, from 0 to 1."""
        return max(0.0, self.total - self.bound) / max(1, self.total)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why there is no plan: the rules that clash, and what is missing where it can be counted."""

    rules: tuple[str, ...]
    says: str
    shortage: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """A single change after which there is a plan; one has been found with it where it was tried.

    Of one that was not tried only that counting speaks no longer against it is known.
    """

    says: str
    changes: str
    is_tried: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Impossible:
    """That there is no plan, at most six reasons, and at most three cures."""

    reasons: tuple[Reason, ...]
    cures: tuple[Cure, ...] = ()
