"""Plans a timetable as one does by hand: game after game, each at the best start still free.

It is here to be compared with: what a search is worth is what it saves against this.
"""

from collections import defaultdict
from dataclasses import dataclass
from typing import Final

from wholeball.kernel.identity import GameId
from wholeball.planning.check import check
from wholeball.planning.problem import Placement, TimetableProblem
from wholeball.solvers.timetable import fields, places
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.parts import asked, built
from wholeball.solvers.timetable.rows import Rows
from wholeball.solvers.timetable.search import Search

UNPLACED: Final = 100
"""What a game without a place costs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ByHand:
    """What came of it: the games with a place, those without, and what both cost together."""

    placements: tuple[Placement, ...]
    unplaced: tuple[GameId, ...]
    total: int


def by_hand(problem: TimetableProblem) -> ByHand:
    """Place games round by round, each where it adds least, the earliest of those first."""
    question = asked(problem)
    build = built(question, places.starts(question))
    hand = _Hand(build.rows, sum(map(len, build.x.values())))
    starts: dict[GameId, int] = {}
    for pairing in sorted(problem.pairings, key=lambda one: (one.pool is None, one.round)):
        costs = {
            start: cost
            for start, column in build.x[pairing.game].items()
            if (cost := hand.adds(column)) is not None
        }
        if costs:
            starts[pairing.game] = min(sorted(costs), key=costs.__getitem__)
            hand.put(build.x[pairing.game][starts[pairing.game]])
    placements = fields.placements(question, starts, Search(Budget(work=0.0)))
    unplaced = tuple(game for game in problem.by_game if game not in starts)
    total = check(problem, placements).total + UNPLACED * len(unplaced)
    return ByHand(placements=placements, unplaced=unplaced, total=total)


class _Hand:
    """The columns that are put, and how full each row is by them.

    Columns from `games` on are no games: they are raised where a row asks for it.
    """

    def __init__(self, rows: Rows, games: int) -> None:
        self._rows, self._games = rows, games
        self._values = [0] * len(rows.costs)
        self._full = [0] * len(rows.rows)
        self._of: dict[int, list[tuple[int, int]]] = defaultdict(list)
        for index, row in enumerate(rows.rows):
            for column, coefficient in zip(row.columns, row.coefficients, strict=True):
                self._of[column].append((index, coefficient))

    def adds(self, column: int) -> int | None:
        """Return what putting a column adds to the cost; None where a row forbids it."""
        done: list[tuple[int, int]] = []
        cost = self._raise(column, 1, done)
        self._undo(done)
        return cost

    def put(self, column: int) -> None:
        """Put a column that no row forbids."""
        self._raise(column, 1, [])

    def _raise(self, column: int, by: int, done: list[tuple[int, int]]) -> int | None:
        """Raise a column and all that rows ask to be raised with it; None where that cannot be."""
        if self._values[column] + by > self._rows.tops[column]:
            return None
        self._add(column, by)
        done.append((column, by))
        cost = self._rows.costs[column] * by
        for index, coefficient in self._of[column]:
            if coefficient > 0 and self._full[index] > self._rows.rows[index].high:
                more = self._make_room(index, done)
                if more is None:
                    return None
                cost += more
        return cost

    def _make_room(self, index: int, done: list[tuple[int, int]]) -> int | None:
        row = self._rows.rows[index]
        for column, coefficient in zip(row.columns, row.coefficients, strict=True):
            room = self._rows.tops[column] - self._values[column]
            if coefficient < 0 and column >= self._games and room > 0:
                by = -((row.high - self._full[index]) // -coefficient)
                if by <= room:
                    return self._raise(column, by, done)
        return None

    def _add(self, column: int, by: int) -> None:
        self._values[column] += by
        for index, coefficient in self._of[column]:
            self._full[index] += coefficient * by

    def _undo(self, done: list[tuple[int, int]]) -> None:
        for column, by in done:
            self._add(column, -by)
