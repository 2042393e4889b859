"""Finds where each game can be at all, by the rules that must hold of it alone."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property
from typing import Any, Final, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.days import weekday
from wholeball.planning.kinds import KINDS
from wholeball.planning.kinds.limits import On
from wholeball.planning.kinds.order import Fixed
from wholeball.planning.kinds.times import Absent, Block, Length, NotAt, forbids
from wholeball.planning.problem import Pairing, Slot, Start, TimetableProblem
from wholeball.planning.rule import Rule

Lets: TypeAlias = Callable[[Any, Slot], bool]


def _in_block(params: Block, slot: Slot) -> bool:
    closes = slot.ends.time() if slot.ends.date() == slot.night else None
    is_in_time = closes is not None and params.opens <= slot.at and closes <= params.closes
    return weekday(slot.night) == params.weekday and is_in_time


def _is_present(params: Absent, slot: Slot) -> bool:
    return not params.covers(slot.start, slot.minutes)


def _is_long(params: Length, slot: Slot) -> bool:
    return slot.minutes >= params.minutes


def _is_elsewhere(params: NotAt, slot: Slot) -> bool:
    return not forbids(params, slot.start)


def _is_there(params: Fixed, slot: Slot) -> bool:
    is_start = slot.start == Start(params.night, params.at)
    return is_start and params.field in ("", slot.field)


def _is_open(params: On, slot: Slot) -> bool:
    return params.most > 0 or slot.night not in params.nights


LETS: Final[dict[str, Lets]] = {
    "block": _in_block,
    "absent": _is_present,
    "length": _is_long,
    "not_at": _is_elsewhere,
    "fixed": _is_there,
    "games_on": _is_open,
}
"""Whether a rule of a kind lets the games that it concerns be in a slot."""


class Free:
    """The slots of a question, numbered, and the sets of them that rules leave to games.

    A set is a whole number with a bit a slot.
    """

    def __init__(self, problem: TimetableProblem, slots: Sequence[Slot]) -> None:
        self.problem = problem
        self.slots = tuple(slots)
        self.every = (1 << len(self.slots)) - 1
        self._params = {rule.rule: KINDS[rule.kind].read(rule) for rule in musts(problem)}
        self._left: dict[str, int] = {}
        self._locks = {lock.game: lock for lock in problem.locks}

    def left_by(self, rule: Rule) -> int:
        """Return the slots that a rule leaves to the games that it concerns."""
        if rule.rule not in self._left:
            lets, params = LETS[rule.kind], self._params[rule.rule]
            alike = self._singles if rule.kind == "fixed" else self.alike
            self._left[rule.rule] = sum(mask for slot, mask in alike if lets(params, slot))
        return self._left[rule.rule]

    @cached_property
    def alike(self) -> tuple[tuple[Slot, int], ...]:
        """The slots that differ by their field alone: one of them, and their set."""
        masks: dict[tuple[Start, int], int] = defaultdict(int)
        one: dict[tuple[Start, int], Slot] = {}
        for index, slot in enumerate(self.slots):
            masks[slot.start, slot.minutes] |= 1 << index
            one.setdefault((slot.start, slot.minutes), slot)
        return tuple((one[key], mask) for key, mask in masks.items())

    @cached_property
    def _singles(self) -> tuple[tuple[Slot, int], ...]:
        return tuple((slot, 1 << index) for index, slot in enumerate(self.slots))

    def of_game(self, game: GameId, rules: Iterable[Rule]) -> int:
        """Return the slots that rules leave to a game, which is where its lock has it."""
        mask = self.every
        for rule in rules:
            mask &= self.left_by(rule)
        lock = self._locks.get(game)
        return mask if lock is None else mask & self.at(lock.start, lock.field)

    def at(self, start: Start, field: str | None) -> int:
        """Return the slots of a start, of one field where it is named."""
        return sum(
            1 << index
            for index, slot in enumerate(self.slots)
            if slot.start == start and field in (None, slot.field)
        )

    def about(self, rule: Rule, pairing: Pairing) -> bool:
        """Tell whether a rule says where a game may be."""
        if rule.kind in ("not_at", "fixed"):
            params = self._params[rule.rule]
            names = (params.game_name,) if rule.kind == "fixed" else params.game_names
            return pairing.game in names
        if not rule.looks_at(is_play_off=pairing.pool is None):
            return False
        if rule.kind == "length" or not rule.teams:
            return rule.kind != "games_on" or self._side_is_listed(rule, pairing, None)
        teams = self.problem.possible[pairing.game]
        return any(
            team in teams and self._side_is_listed(rule, pairing, team) for team in rule.teams
        )

    def _side_is_listed(self, rule: Rule, pairing: Pairing, team: TeamId | None) -> bool:
        """Tell whether a rule about one side of games is about this side of this game."""
        if rule.kind != "games_on":
            return True
        side = self._params[rule.rule].side
        if side == "any" or team is None:
            return True
        return pairing.sides[0 if side == "first" else 1] == team


def musts(problem: TimetableProblem) -> Iterator[Rule]:
    """Yield the rules that say where games can be, and must hold."""
    for rule in problem.rules:
        if rule.strength == "must" and rule.kind in LETS:
            yield rule


def inside(mask: int) -> Iterator[int]:
    """Yield the numbers of a set."""
    while mask:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest
