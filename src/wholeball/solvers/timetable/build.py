"""Builds the model: a column for each game at each place where it may be.

A place is a start, or a whole night where only nights are to be decided; either is numbered by
its first start.
"""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
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
Breaks = Mapping[GameId, Sequence[tuple[str, int]]]
"""What games break in which slots: a rule's name and a set of slots, once for each unit of it."""
UNIONS: Final = 64
"""How many sets of slots of one place are looked at, at most, where rules may give way."""


class Build:
    """A model under construction, with what its parts ask of it.

    It leaves out rows that rows of other rules imply. With `missing` a game may have no place, at
    that cost. With `breaks` it is elastic: each must may give way, at 1 a unit, and all rows are
    there. A wide one refuses no plan that is one; what it proves is proven of every plan.
    """

    def __init__(
        self,
        question: Question,
        places: Places,
        *,
        by_night: bool = False,
        missing: int | None = None,
        is_wide: bool = False,
        breaks: Breaks | None = None,
    ) -> None:
        self.question = question
        self.places = places
        self.by_night = by_night
        self.is_elastic = breaks is not None
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
        self.is_wider = False
        """Whether it lets by some plan that is none: where not every set of slots was looked at."""
        self.missing: dict[GameId, int] = {}
        self.gives: dict[int, tuple[str, ...]] = {}
        """The rules that give way by a unit each for each unit of a column."""
        self._slack: dict[Hashable, int] = {}
        self._sorts: dict[int, list[tuple[int, int]]] = {}
        self._once(missing)
        if breaks is not None:
            self._sort(breaks)
        self._capacity()
        if not by_night:
            self._one_at_once(all if is_wide else any)

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

    def is_held(self, read: Read) -> bool:
        """Tell whether nothing may break a rule: it must hold, and the model is not elastic."""
        return read.is_must and not self.is_elastic

    def slack(self, read: Read, *, top: int = 1, about: Hashable = None) -> int:
        """Return a column of what breaks a rule: what a wish costs, or how far a must gives way.

        What a must breaks in several ways that lead to the same is one: give what it is `about`.
        """
        if not read.is_must:
            return self.rows.column(cost=read.rule.cost, top=top)
        key = (read.rule.rule, about)
        found = None if about is None else self._slack.get(key)
        if found is None:
            found = self._slack[key] = self.rows.column(cost=1, top=top)
            self.gives[found] = (read.rule.rule,)
        self.rows.tops[found] = max(top, self.rows.tops[found])
        return found

    def limit(
        self, columns: Sequence[int], most: int, read: Read, about: Hashable = None
    ) -> None:
        """Let at most so many be true where the rule is held; else each above is a unit."""
        if read.is_must:
            most = max(most, sum(column in self.past for column in columns))
        if len(columns) <= most:
            return
        if self.is_held(read):
            self.rows.at_most(columns, most, read.rule.rule)
            return
        over = self.slack(read, top=len(columns) - most, about=about)
        ones = [1] * len(columns)
        self.rows.at_most([*columns, over], most, read.rule.rule, [*ones, -1])

    def not_both(
        self,
        one: Sequence[int],
        other: Sequence[int],
        read: Read,
        unless: Sequence[int] = (),
        *,
        about: Hashable = None,
    ) -> None:
        """Let not one of each be true where the rule is held; else that is a unit.

        Of each side at most one can be true; where one of `unless` is true all is well.
        """
        if not one or not other or (read.is_must and self._is_past(one, other)):
            return
        columns = [*one, *other, *unless]
        signs = [1] * (len(one) + len(other)) + [-1] * len(unless)
        if not self.is_held(read):
            columns.append(self.slack(read, about=about))
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

    def given(self, values: Sequence[float]) -> dict[str, float]:
        """Return by how many units each rule gives way, by the values of all columns."""
        found: dict[str, float] = defaultdict(float)
        for column, rules in self.gives.items():
            for rule in rules:
                found[rule] += values[column]
        return found

    def _sort(self, breaks: Breaks) -> None:
        """Charge games by what they break in the slots of a place, a column a sort of slots."""
        for game, columns in self.x.items():
            for place, column in columns.items():
                sorts = _sorted(self.places[game][place], breaks.get(game, ()))
                several = [
                    (self.rows.column() if len(sorts) > 1 else column, *one) for one in sorts
                ]
                for each, _, rules in several:
                    self.rows.costs[each] += len(rules)
                    self.gives[each] = rules
                if len(several) > 1:
                    self._sorts[column] = [(each, mask) for each, mask, _ in several]
                    ones = [1] * len(several)
                    sums = [*(each for each, _, _ in several), column]
                    self.rows.at_most(sums, 0, ONCE, [*ones, -1])
                    self.rows.at_least(sums, 0, ONCE, [*ones, -1])

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
                for each, mask in self._sorts.get(column, [(column, self.places[game][place])]):
                    here[place][mask].append(each)
        for by_mask in here.values():
            for some in self._sets(by_mask):
                inside = list(
                    chain.from_iterable(
                        columns for mask, columns in by_mask.items() if mask & ~some == 0
                    )
                )
                if len(inside) > some.bit_count():
                    self.rows.at_most(inside, some.bit_count(), CAPACITY)

    def _sets(self, masks: Iterable[int]) -> set[int]:
        """Return the sets of slots of a place that are looked at; every union, if elastic."""
        every, unions = 0, set[int]()
        for mask in masks:
            every |= mask
            if self.is_elastic and len(unions) < UNIONS:
                unions |= {mask, *(mask | one for one in unions)}
        self.is_wider |= len(unions) >= UNIONS
        return {*masks, *unions, every, *(one & every for one in self.question.tight)} - {0}

    def _one_at_once(self, asks: Callable[[Iterable[bool]], bool]) -> None:
        """Let no team play two games at one time, nor one that begins before another has ended."""
        overlapping = list(self._overlapping(asks))
        for team in self.question.problem.teams:
            by_place = self.grouped(self.question.certain(team.team))
            for columns in by_place.values():
                if len(columns) > 1:
                    self.rows.at_most(columns, 1, AT_ONCE)
            for one, later in overlapping:
                columns = [*by_place.get(one, ()), *by_place.get(later, ())]
                if len(columns) > 1:
                    self.rows.at_most(columns, 1, AT_ONCE)

    def _overlapping(self, asks: Callable[[Iterable[bool]], bool]) -> Iterator[tuple[int, int]]:
        """Yield two starts of which the later lies within any slot of the earlier, or all."""
        question = self.question
        for starts in question.nights.values():
            for one, later in combinations(starts, 2):
                begins = datetime.combine(
                    question.starts[later].night, question.starts[later].at
                )
                ends = {slot.ends > begins for slot in question.inside(question.masks[one])}
                if asks(ends):
                    self.is_narrower |= len(ends) > 1
                    yield one, later


def _sorted(slots: int, breaks: Sequence[tuple[str, int]]) -> list[tuple[int, tuple[str, ...]]]:
    """Split slots into those that break the same, with the rules that they break."""
    sorts: list[tuple[int, tuple[str, ...]]] = [(slots, ())]
    for rule, mask in breaks:
        sorts = [
            one
            for here, rules in sorts
            for one in ((here & ~mask, rules), (here & mask, (*rules, rule)))
            if one[0]
        ]
    return sorts
