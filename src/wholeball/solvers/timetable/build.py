"""Builds the model: a column for each game at each place where it may be.

A place is a start, or a whole night where only nights are to be decided; either is numbered by
its first start.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from functools import cached_property
from itertools import chain, combinations
from typing import Final

from wholeball.kernel.identity import GameId, TeamId
from wholeball.solvers.timetable.question import Question, Read
from wholeball.solvers.timetable.rows import Rows

ONCE: Final = "once"
CAPACITY: Final = "capacity"
AT_ONCE: Final = "at once"

Places = Mapping[GameId, Mapping[int, int]]
"""The places of each game, and the slots of each place that the game may use."""


class Build:
    """A model under construction, with what its parts ask of it.

    A lean one leaves out rows that rows of other rules imply. With `missing` a game may have no
    place, at that cost.
    """

    def __init__(
        self,
        question: Question,
        places: Places,
        *,
        by_night: bool = False,
        is_lean: bool = True,
        missing: int | None = None,
    ) -> None:
        self.question = question
        self.places = places
        self.by_night = by_night
        self.is_lean = is_lean
        self.rows = Rows()
        self.x: dict[GameId, dict[int, int]] = {
            game: {
                place: self.rows.column(cost=question.price(game, mask))
                for place, mask in where.items()
            }
            for game, where in places.items()
        }
        self.is_narrower = False
        """Whether it refuses some plan that is one: where slots of a start end at several times."""
        self.missing: dict[GameId, int] = {}
        self._once(missing)
        self._capacity()
        if not by_night:
            self._one_at_once()

    def grouped(self, games: Iterable[GameId]) -> Mapping[int, list[int]]:
        """Return the columns of games by their places."""
        found: dict[int, list[int]] = defaultdict(list)
        for game in games:
            for place, column in self.x[game].items():
                found[place].append(column)
        return found

    @cached_property
    def everywhere(self) -> Mapping[int, list[int]]:
        """The columns of all games by their places."""
        return self.grouped(self.x)

    def each(self, game: GameId) -> Iterable[tuple[int, int]]:
        """Return a game's places and columns."""
        return self.x.get(game, {}).items()

    def limit(self, columns: Sequence[int], most: int, read: Read) -> None:
        """Let at most so many be true where the rule must hold; else each above has its cost."""
        if len(columns) <= most:
            return
        if read.is_must:
            past = sum(column in self.past for column in columns)
            self.rows.at_most(columns, max(most, past), read.rule.rule)
            return
        over = self.rows.column(cost=read.rule.cost, top=len(columns) - most)
        ones = [1] * len(columns)
        self.rows.at_most([*columns, over], most, read.rule.rule, [*ones, -1])

    def not_both(
        self, one: Sequence[int], other: Sequence[int], read: Read, unless: Sequence[int] = ()
    ) -> None:
        """Let not one of each be true where the rule must hold; else that has its cost.

        Of each side at most one can be true; where one of `unless` is true all is well.
        """
        if not one or not other or (read.is_must and self._is_past(one, other)):
            return
        columns = [*one, *other, *unless]
        signs = [1] * (len(one) + len(other)) + [-1] * len(unless)
        if not read.is_must:
            columns.append(self.rows.column(cost=read.rule.cost))
            signs.append(-1)
        self.rows.at_most(columns, 1, read.rule.rule, signs)

    @cached_property
    def past(self) -> frozenset[int]:
        """The columns of games that have been played; what they break is past."""
        played = (game for game in self.question.problem.played if game in self.x)
        return frozenset(column for game in played for column in self.x[game].values())

    def _is_past(self, one: Sequence[int], other: Sequence[int]) -> bool:
        return not self.past.isdisjoint(one) and not self.past.isdisjoint(other)

    def apart(self, team: TeamId, games: Iterable[GameId]) -> list[list[GameId]]:
        """Split a team's games into groups of which one at most is at any start.

        Those that it surely plays are one group; each that it may come to play is its own.
        """
        certain = frozenset(self.question.certain(team))
        here = list(games)
        known = [game for game in here if game in certain]
        return [known, *([game] for game in here if game not in certain)]

    def placed(self, values: Sequence[int]) -> dict[GameId, int]:
        """Return the place of each game that has one, by the values of all columns."""
        return {
            game: place
            for game, columns in self.x.items()
            for place, column in columns.items()
            if values[column]
        }

    def _once(self, missing: int | None) -> None:
        for game, places in self.x.items():
            columns = list(places.values())
            if missing is not None:
                self.missing[game] = self.rows.column(cost=missing)
                columns.append(self.missing[game])
            self.rows.exactly(columns, 1, ONCE)

    def _capacity(self) -> None:
        """Let the games of a place have their slots: for each set of slots, those bound to it."""
        here: dict[int, dict[int, list[int]]] = defaultdict(lambda: defaultdict(list))
        for game, columns in self.x.items():
            for place, column in columns.items():
                here[place][self.places[game][place]].append(column)
        for by_mask in here.values():
            every = 0
            for mask in by_mask:
                every |= mask
            for some in {*by_mask, every, *(one & every for one in self.question.tight)} - {0}:
                inside = list(
                    chain.from_iterable(
                        columns for mask, columns in by_mask.items() if mask & ~some == 0
                    )
                )
                if len(inside) > some.bit_count():
                    self.rows.at_most(inside, some.bit_count(), CAPACITY)

    def _one_at_once(self) -> None:
        """Let no team play two games at one time, nor one that begins before another has ended."""
        overlapping = list(self._overlapping())
        for team in self.question.problem.teams:
            by_place = self.grouped(self.question.certain(team.team))
            for columns in by_place.values():
                if len(columns) > 1:
                    self.rows.at_most(columns, 1, AT_ONCE)
            for one, later in overlapping:
                columns = [*by_place.get(one, ()), *by_place.get(later, ())]
                if len(columns) > 1:
                    self.rows.at_most(columns, 1, AT_ONCE)

    def _overlapping(self) -> Iterator[tuple[int, int]]:
        """Yield two starts of which the later lies within a slot of the earlier."""
        question = self.question
        for starts in question.nights.values():
            for one, later in combinations(starts, 2):
                begins = datetime.combine(
                    question.starts[later].night, question.starts[later].at
                )
                ends = {slot.ends > begins for slot in question.inside(question.masks[one])}
                if any(ends):
                    self.is_narrower |= len(ends) > 1
                    yield one, later
