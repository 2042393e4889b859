"""Holds a linear model as plain columns and rows, for whichever solver is to answer it."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

ENDLESS: Final = 2**31 - 1
"""A side of a row that has no limit."""


@dataclass(frozen=True, slots=True)
class Row:
    """`low <= sum of coefficient x column <= high`; `owner` is the rule that asks for it."""

    columns: Sequence[int]
    coefficients: Sequence[int]
    low: int
    high: int
    owner: str


@dataclass(slots=True)
class Rows:
    """A model: what each column costs and how large it may be, and the rows it must keep.

    Columns are whole numbers from 0; costs are whole numbers, so a plan's cost is one too.
    """

    costs: list[int] = field(default_factory=list)
    tops: list[int] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    always: int = 0
    """What any plan costs."""

    def column(self, *, cost: int = 0, top: int = 1) -> int:
        """Add a column and return its number."""
        self.costs.append(cost)
        self.tops.append(top)
        return len(self.costs) - 1

    def at_most(
        self,
        columns: Sequence[int],
        high: int,
        owner: str,
        coefficients: Sequence[int] | None = None,
    ) -> None:
        """Let a sum be at most so much."""
        ones = coefficients or [1] * len(columns)
        self.rows.append(Row(columns, ones, -ENDLESS, high, owner))

    def at_least(
        self,
        columns: Sequence[int],
        low: int,
        owner: str,
        coefficients: Sequence[int] | None = None,
    ) -> None:
        """Let a sum be at least so much."""
        ones = coefficients or [1] * len(columns)
        self.rows.append(Row(columns, ones, low, ENDLESS, owner))

    def exactly(self, columns: Sequence[int], value: int, owner: str) -> None:
        """Let a sum be so much."""
        self.rows.append(Row(columns, [1] * len(columns), value, value, owner))
