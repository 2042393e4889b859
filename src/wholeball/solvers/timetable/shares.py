"""Shares fields out among games whose starts are known, a few starts at a time.

One model of a large season finds nothing: fields are alike, and so are its answers. With the
other games held where they are, the fields of a few starts are soon shared out in the best way.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from numpy.random import default_rng

from wholeball.kernel.identity import GameId
from wholeball.planning.kinds.times import share
from wholeball.planning.rule import Rule
from wholeball.solvers.timetable import sat
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.rows import Rows
from wholeball.solvers.timetable.sat import Limits
from wholeball.solvers.timetable.search import Search

FREE: Final = 20
"""How many games are free in the second round; twice as many where a round betters nothing."""
ROUND: Final = 1.0
"""How long one part is shared out, in CP-SAT's own measure."""
LEAST: Final = 5.0
"""How long fields may be shared out, whatever is left of a search: seconds, or work."""

Matched: TypeAlias = Mapping[GameId, int]
"""The slot of each game by its number."""
Prices: TypeAlias = Mapping[GameId, Mapping[int, int]]
"""What each game costs on each slot that it may use of its start."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Team:
    """A team's games that a rule looks at, and how many of them on one field are its share."""

    rule: Rule
    games: Sequence[GameId]
    fair: int


class _Shares:
    def __init__(self, question: Question, prices: Prices) -> None:
        self._prices = prices
        self._field = [slot.field for slot in question.slots]
        self._teams = list(_teams(question, prices))
        self.least = sum(min(slots.values()) for slots in prices.values())

    def cost(self, matched: Matched) -> int:
        """Return what the slots cost by themselves, and each game above a team's share."""
        cost = sum(self._prices[game][slot] for game, slot in matched.items())
        for team in self._teams:
            on = Counter(self._field[matched[game]] for game in team.games)
            cost += team.rule.cost * sum(max(0, count - team.fair) for count in on.values())
        return cost

    def again(
        self, matched: Matched, free: Sequence[GameId], seed: int
    ) -> tuple[Matched, sat.Answer]:
        """Share the slots of some starts out again, with all their games free."""
        rows = Rows()
        on = self._columns(rows, free)
        for team in self._teams:
            if not on.keys().isdisjoint(team.games):
                self._add(rows, on, team, matched)
        each = [
            (game, slot, column) for game, slots in on.items() for slot, column in slots.items()
        ]
        hint = {column: int(matched[game] == slot) for game, slot, column in each}
        answer = sat.solved(rows, Limits(workers=1, work=ROUND, seed=seed), hint=hint)
        if not answer.values:
            return matched, answer
        again = {game: slot for game, slot, column in each if answer.values[column]}
        return {**matched, **again}, answer

    def _columns(
        self, rows: Rows, free: Sequence[GameId]
    ) -> Mapping[GameId, Mapping[int, int]]:
        """Add the columns of each game that is free, by its slots, with a game a slot at most."""
        on = {
            game: {slot: rows.column(cost=cost) for slot, cost in self._prices[game].items()}
            for game in free
        }
        at: dict[int, list[int]] = defaultdict(list)
        for columns in on.values():
            rows.exactly(list(columns.values()), 1, "once")
            for slot, column in columns.items():
                at[slot].append(column)
        for here in at.values():
            rows.at_most(here, 1, "capacity")
        return on

    def _add(
        self, rows: Rows, on: Mapping[GameId, Mapping[int, int]], team: _Team, matched: Matched
    ) -> None:
        """Let each of a team's games above its share of a field cost what the rule says."""
        held = Counter(self._field[matched[game]] for game in team.games if game not in on)
        by_field: dict[str, list[int]] = defaultdict(list)
        for game in team.games:
            for slot, column in on.get(game, {}).items():
                by_field[self._field[slot]].append(column)
        for field, here in by_field.items():
            left = team.fair - held[field]
            if len(here) > left:
                over = rows.column(cost=team.rule.cost, top=len(here) - left)
                signs = [*[1] * len(here), -1]
                rows.at_most([*here, over], left, team.rule.rule, signs)


def shared_out(
    question: Question, prices: Prices, begin: Matched, search: Search
) -> Iterator[Matched]:
    """Yield fields shared out ever better, until the search is over or none can be better.

    Even where a search was stopped, each start is shared out once by itself.
    """
    shares, starts = _Shares(question, prices), _starts(question, begin)
    draws = default_rng(search.budget.seed)
    search.lengthen(LEAST)
    best, cost, size = begin, shares.cost(begin), 1
    while cost > shares.least:
        before, is_best = cost, size >= len(begin)
        for free in _parts([starts[one] for one in draws.permutation(len(starts))], size):
            if size > 1 and search.is_spent:
                break
            found, answer = shares.again(best, free, search.budget.seed)
            search.spends(answer.work)
            is_best = is_best and answer.status == "optimal"
            if (now := shares.cost(found)) < cost:
                best, cost = found, now
        if cost < before:
            yield best
        if is_best or search.is_spent:
            return
        size = FREE if size == 1 else size * (1 if cost < before else 2)


def _teams(question: Question, prices: Prices) -> Iterator[_Team]:
    fields = len({slot.field for slot in question.slots})
    for read in question.rules:
        if read.rule.kind == "even_fields":
            for team in read.teams:
                games = [one for one in question.games(team, read.rule) if one in prices]
                yield _Team(rule=read.rule, games=games, fair=share(len(games), fields))


def _starts(question: Question, matched: Matched) -> list[list[GameId]]:
    """Return the games of each start."""
    by_start: dict[object, list[GameId]] = defaultdict(list)
    for game, slot in matched.items():
        by_start[question.slots[slot].start].append(game)
    return list(by_start.values())


def _parts(starts: Sequence[Sequence[GameId]], size: int) -> Iterator[list[GameId]]:
    """Yield the games of starts one after another, so many together or some more."""
    part: list[GameId] = []
    for games in starts:
        part += games
        if len(part) >= size:
            yield part
            part = []
    if part:
        yield part
