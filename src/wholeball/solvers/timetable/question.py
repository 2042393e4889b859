"""Prepares a timetable's question for the models: where each game may be, and whose it is.

Slots are numbered in the order of time, so that a set of them is a whole number with a bit a
slot; those of one start, and those of one night, lie side by side.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import Slot, Start, TimetableProblem
from wholeball.planning.rule import Rule

Allows = Callable[[Any, Slot], bool]
"""Tells whether a rule, by its parameters, lets the games that it looks at be in a slot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A rule with its parameters, and the teams that it concerns."""

    rule: Rule
    params: Any
    teams: tuple[TeamId, ...]

    @property
    def is_must(self) -> bool:
        """Whether it must hold."""
        return self.rule.strength == "must"


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """Where a kind lets games be: in which slots, and which games it looks at.

    Without `named` these are the games of the teams that it concerns, once a team. Slots that
    differ by nothing but their field are alike to it, unless it looks at the field.
    """

    allows: Allows
    by_field: bool = False
    named: Callable[["Question", Read], Iterable[GameId]] | None = None


class Question:
    """A question with its starts and slots numbered, and the slots that each game may use."""

    def __init__(self, problem: TimetableProblem, wheres: Mapping[str, Where]) -> None:
        self.problem = problem
        self.starts: tuple[Start, ...] = tuple(problem.starts)
        self.number = {start: index for index, start in enumerate(self.starts)}
        self.slots = tuple(slot for slots in problem.starts.values() for slot in slots)
        self.masks = tuple(self._masks())
        self.rules = tuple(_read(problem))
        self.tight: set[int] = set()
        """Sets of slots of a start that were found to be too few for the games bound to them."""
        self._wheres = wheres
        self._charged: Mapping[GameId, tuple[tuple[int, int], ...]] = {}

    @cached_property
    def nights(self) -> Mapping[date, tuple[int, ...]]:
        """The numbers of each night's starts."""
        nights: dict[date, list[int]] = defaultdict(list)
        for index, start in enumerate(self.starts):
            nights[start.night].append(index)
        return {night: tuple(starts) for night, starts in nights.items()}

    @cached_property
    def weeks(self) -> Mapping[int, tuple[int, ...]]:
        """The numbers of each week's starts."""
        weeks: dict[int, list[int]] = defaultdict(list)
        for index, start in enumerate(self.starts):
            weeks[self.problem.week_of(start.night)].append(index)
        return {week: tuple(starts) for week, starts in weeks.items()}

    def games(self, team: TeamId, rule: Rule) -> Sequence[GameId]:
        """Return a team's games that a rule looks at: all that may be, or those that are known."""
        of_team = self._possible if rule.strength == "must" else self._certain
        return [game for game in of_team.get(team, ()) if self.looks_at(rule, game)]

    def together(self, read: Read) -> Iterator[tuple[TeamId, Sequence[GameId]]]:
        """Yield each team that a rule concerns with games that it may play all of.

        A must sees each way through a bracket by itself, a wish the games that are known.
        """
        for team in read.teams:
            if not read.is_must:
                yield team, self.games(team, read.rule)
                continue
            ways = {
                tuple(game for game in way if self.looks_at(read.rule, game))
                for way in map(sorted, self.problem.ways_of(team))
            }
            for way in sorted(ways):
                yield team, way

    def certain(self, team: TeamId) -> Sequence[GameId]:
        """Return the games that a team surely plays."""
        return self._certain.get(team, ())

    def looks_at(self, rule: Rule, game: GameId) -> bool:
        """Tell whether a rule looks at a game, by its stage."""
        return rule.looks_at(is_play_off=self.problem.by_game[game].pool is None)

    def inside(self, mask: int) -> Iterator[Slot]:
        """Yield the slots of a set."""
        while mask:
            lowest = mask & -mask
            yield self.slots[lowest.bit_length() - 1]
            mask ^= lowest

    @cached_property
    def free(self) -> Mapping[GameId, int]:
        """The slots that each game may use, by the rules that must hold and by the locks.

        No rule is asked about a game that has been played.
        """
        every = (1 << len(self.slots)) - 1
        free = dict.fromkeys(self.problem.by_game, every)
        for read in self.rules:
            if read.is_must:
                for game, mask in self.taken(read):
                    free[game] &= ~mask
        for lock in self.problem.locks:
            if lock.game in free:
                held = self._locked(lock.start, lock.field)
                free[lock.game] = held if lock.why == "played" else free[lock.game] & held
        return free

    def charge(self, charged: Mapping[GameId, tuple[tuple[int, int], ...]]) -> None:
        """Let sets of slots cost games something besides what wishes say."""
        self._charged = charged

    @cached_property
    def prices(self) -> Mapping[GameId, tuple[tuple[int, int], ...]]:
        """Sets of slots that cost a game something, by wishes about where games are."""
        prices: dict[GameId, list[tuple[int, int]]] = defaultdict(list)
        for game, charged in self._charged.items():
            prices[game] += charged
        for read in self.rules:
            if not read.is_must:
                for game, mask in self.taken(read):
                    prices[game].append((mask, read.rule.cost))
        return {game: tuple(found) for game, found in prices.items()}

    def price(self, game: GameId, mask: int) -> int:
        """Return what a game costs at least in one of these slots."""
        prices = [(taken & mask, cost) for taken, cost in self.prices.get(game, ())]
        if all(taken in (0, mask) for taken, _ in prices):
            return sum(cost for taken, cost in prices if taken)
        return min(
            sum(cost for taken, cost in prices if taken >> bit & 1)
            for bit in range(mask.bit_length())
            if mask >> bit & 1
        )

    def taken(self, read: Read) -> Iterator[tuple[GameId, int]]:
        """Yield the slots that a rule takes from each game, once a team that it concerns."""
        where = self._wheres.get(read.rule.kind)
        if where is None:
            return
        mask = self._refused(where, read)
        if not mask:
            return
        if where.named is not None:
            for game in where.named(self, read):
                yield game, mask
            return
        for team in read.teams:
            for game in self.games(team, read.rule):
                yield game, mask

    def _refused(self, where: Where, read: Read) -> int:
        if not where.by_field:
            return sum(
                mask for slot, mask in self._alike if not where.allows(read.params, slot)
            )
        return sum(
            1 << index
            for index, slot in enumerate(self.slots)
            if not where.allows(read.params, slot)
        )

    def _locked(self, start: Start, field: str | None) -> int:
        return sum(
            1 << index
            for index, slot in enumerate(self.slots)
            if slot.start == start and field in (None, slot.field)
        )

    @cached_property
    def _alike(self) -> list[tuple[Slot, int]]:
        """One slot for all that start and end with it, and the set of them."""
        found: dict[tuple[Start, int], list[int]] = defaultdict(list)
        for index, slot in enumerate(self.slots):
            found[slot.start, slot.minutes].append(index)
        return [
            (self.slots[several[0]], sum(1 << index for index in several))
            for several in found.values()
        ]

    def _masks(self) -> Iterator[int]:
        """Yield the slots of each start."""
        first = 0
        for slots in self.problem.starts.values():
            yield ((1 << len(slots)) - 1) << first
            first += len(slots)

    @cached_property
    def _possible(self) -> Mapping[TeamId, list[GameId]]:
        return _by_team(self.problem.possible.items())

    @cached_property
    def _certain(self) -> Mapping[TeamId, list[GameId]]:
        return _by_team(
            (one.game, [TeamId(side) for side in one.sides if isinstance(side, str)])
            for one in self.problem.pairings
        )


def _read(problem: TimetableProblem) -> Iterator[Read]:
    every = tuple(one.team for one in problem.teams)
    for rule in problem.rules:
        named = frozenset(rule.teams)
        teams = tuple(team for team in every if team in named) if named else every
        yield Read(rule=rule, params=KINDS[rule.kind].read(rule), teams=teams)


def _by_team(
    games: Iterable[tuple[GameId, Iterable[TeamId]]],
) -> Mapping[TeamId, list[GameId]]:
    found: dict[TeamId, list[GameId]] = defaultdict(list)
    for game, teams in games:
        for team in teams:
            found[team].append(game)
    return found
