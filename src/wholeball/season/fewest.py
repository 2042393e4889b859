"""Gives each row a column of its own so that the costs add up to the least possible."""

from collections.abc import Sequence
from typing import Final

_NOBODY: Final = -1
_FAR: Final = 1 << 62
"""More than any cost."""


def cheapest(costs: Sequence[Sequence[int]]) -> list[int]:
    """Return the column of each row; `costs` is a square of whole numbers. O(n cubed).

    Each row in turn is placed along a path of least cost (the Hungarian method with
    potentials; Kuhn 1955, Munkres 1957, from memory).
    """
    placing = _Placing(costs)
    for row in range(len(costs)):
        placing.place(row)
    return placing.columns()


class _Placing:
    """Holds which row has each column, and how much each row and column is worth."""

    def __init__(self, costs: Sequence[Sequence[int]]) -> None:
        self._costs = costs
        self._row_worth = [0] * len(costs)
        self._column_worth = [0] * len(costs)
        self._row_of = [_NOBODY] * len(costs)

    def columns(self) -> list[int]:
        found = [0] * len(self._row_of)
        for column, row in enumerate(self._row_of):
            found[row] = column
        return found

    def place(self, row: int) -> None:
        """Find the cheapest path from a row to a free column, and shift every row along it."""
        n = len(self._costs)
        least, came_from = [_FAR] * n, [_NOBODY] * n
        seen: list[int] = []
        at, column = row, _NOBODY
        while at != _NOBODY:
            column = self._nearest(at, column, least, came_from, seen)
            self._raise_by(least[column], row, seen)
            least = [
                0 if one in seen else cost - least[column] for one, cost in enumerate(least)
            ]
            seen.append(column)
            at = self._row_of[column]
        while column != _NOBODY:
            before = came_from[column]
            self._row_of[column] = row if before == _NOBODY else self._row_of[before]
            column = before

    def _nearest(
        self, at: int, through: int, least: list[int], came_from: list[int], seen: list[int]
    ) -> int:
        """Return the column that costs least to reach, now that row `at` can be moved too."""
        free = [column for column in range(len(least)) if column not in seen]
        for column in free:
            cost = self._costs[at][column] - self._row_worth[at] - self._column_worth[column]
            if cost < least[column]:
                least[column], came_from[column] = cost, through
        return min(free, key=lambda column: least[column])

    def _raise_by(self, step: int, row: int, seen: list[int]) -> None:
        self._row_worth[row] += step
        for column in seen:
            self._row_worth[self._row_of[column]] += step
            self._column_worth[column] -= step
