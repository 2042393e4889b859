"""States the relaxed question that proves a bound: how much of each game is on each night.

Whatever a kind of rule does here no plan can escape; what nights alone do not settle is left
out.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, datetime, timedelta
from functools import cached_property
from itertools import accumulate
from types import MappingProxyType
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.kinds import KINDS
from wholeball.planning.kinds.early import due_weeks
from wholeball.planning.problem import Slot, Start, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.solvers.timetable.rows import Rows

Games = Mapping[TeamId, list[GameId]]
Truths = NDArray[np.bool_]
Costs = NDArray[np.int64]


class Least:
    """The relaxed question under construction."""

    def __init__(self, problem: TimetableProblem) -> None:
        self.problem = problem
        self.slots = tuple(slot for slots in problem.starts.values() for slot in slots)
        self.nights = tuple(dict.fromkeys(slot.night for slot in self.slots))
        self.rows = Rows()
        self.on: dict[GameId, dict[date, int]] = {}
        self._place()
        for rule in problem.rules:
            row = ROWS.get(rule.kind)
            if row is not None:
                row(self, rule, KINDS[rule.kind].read(rule))

    @property
    def is_impossible(self) -> bool:
        """Whether a game can be nowhere."""
        return not all(self.on.values())

    @cached_property
    def certain(self) -> Games:
        """The games that each team surely plays."""
        found: dict[TeamId, list[GameId]] = defaultdict(list)
        for pairing in self.problem.pairings:
            for side in pairing.sides:
                if isinstance(side, str):
                    found[TeamId(side)].append(pairing.game)
        return found

    def teams(self, rule: Rule) -> list[TeamId]:
        """Return whom a rule concerns."""
        every = [one.team for one in self.problem.teams]
        return [team for team in every if team in rule.teams] if rule.teams else every

    def looks_at(self, rule: Rule, game: GameId) -> bool:
        """Tell whether a rule looks at a game."""
        return rule.looks_at(is_play_off=self.problem.by_game[game].pool is None)

    def columns(
        self, team: TeamId, rule: Rule, nights: Iterable[date], side: str = "any"
    ) -> list[int]:
        """Return how much of a team's games that a rule looks at is on these nights."""
        games = [one for one in self.certain.get(team, ()) if self.looks_at(rule, one)]
        if side != "any":
            is_first = side == "first"
            games = [
                one for one in games if (self.problem.by_game[one].home == team) == is_first
            ]
        spans = list(nights)
        return [
            self.on[game][night] for game in games for night in spans if night in self.on[game]
        ]

    def limit(self, columns: list[int], most: int, rule: Rule) -> None:
        """Let at most so many be; a wish has its cost for each above."""
        if len(columns) <= most:
            return
        if rule.strength == "must":
            past = len(self.past.intersection(columns))
            self.rows.at_most(columns, max(most, past), rule.rule)
            return
        over = self.rows.column(cost=rule.cost, top=len(columns))
        self.rows.at_most([*columns, over], most, rule.rule, [*[1] * len(columns), -1])

    @cached_property
    def past(self) -> frozenset[int]:
        """The columns of games that have been played; what they break is past."""
        played = (self.on[game] for game in self.problem.played if game in self.on)
        return frozenset(column for where in played for column in where.values())

    def _place(self) -> None:
        """Add the columns: a game on a night, at the cost of its cheapest slot of it."""
        if not self.slots:
            self.on = {game: {} for game in self.problem.by_game}
            return
        sizes = [sum(slot.night == night for slot in self.slots) for night in self.nights]
        begins = [0, *accumulate(sizes)][:-1]
        closed, prices = _taken(self)
        by_night: dict[date, list[int]] = defaultdict(list)
        far = np.int64(10**12)
        for game in self.problem.by_game:
            costs = np.where(closed[game], far, prices[game])
            cheapest = np.minimum.reduceat(costs, begins)
            self.on[game] = {
                night: self.rows.column(cost=int(cost))
                for night, cost in zip(self.nights, cheapest, strict=True)
                if cost < far
            }
            self.rows.exactly(list(self.on[game].values()), 1, "once")
            for night, column in self.on[game].items():
                by_night[night].append(column)
        for night, size in zip(self.nights, sizes, strict=True):
            self.rows.at_most(by_night[night], size, "capacity")


def _taken(least: Least) -> tuple[Mapping[GameId, Truths], Mapping[GameId, Costs]]:
    """Return the slots that each game cannot have, and what each slot costs it by wishes."""
    problem = least.problem
    closed = {game: np.zeros(len(least.slots), dtype=np.bool_) for game in problem.by_game}
    prices = {game: np.zeros(len(least.slots), dtype=np.int64) for game in problem.by_game}
    for rule in problem.rules:
        refuses = REFUSES.get(rule.kind)
        if refuses is None:
            continue
        params = KINDS[rule.kind].read(rule)
        refused = _refused(least, rule.kind, refuses, params)
        for game in _whose(least, rule, params):
            if rule.strength == "must":
                closed[game] |= refused
            else:
                prices[game] += rule.cost * refused
    for lock in problem.locks:
        if lock.game in closed:
            away = np.array(
                [
                    slot.start != lock.start or lock.field not in (None, slot.field)
                    for slot in least.slots
                ]
            )
            is_past = lock.why == "played"
            closed[lock.game] = away if is_past else closed[lock.game] | away
    return closed, prices


def _refused(
    least: Least, kind: str, refuses: Callable[[Any, Slot], bool], params: Any
) -> Truths:
    """Ask once for all slots that differ by nothing but the field, unless the field matters."""
    known: dict[tuple[Start, int, str], bool] = {}
    found = []
    for slot in least.slots:
        key = (slot.start, slot.minutes, slot.field if kind == "fixed" else "")
        if key not in known:
            known[key] = refuses(params, slot)
        found.append(known[key])
    return np.array(found)


def _whose(least: Least, rule: Rule, params: Any) -> Iterator[GameId]:
    """Yield the games that a rule takes slots from, once a team where it concerns teams."""
    problem = least.problem
    if rule.kind in ("not_at", "fixed"):
        names = params.game_names if rule.kind == "not_at" else (params.game_name,)
        yield from (game for game in problem.by_game if game in names)
        return
    games = [game for game in problem.by_game if least.looks_at(rule, game)]
    if rule.kind == "length":
        yield from games
        return
    whom = frozenset(least.teams(rule))
    for game in games:
        sides = problem.by_game[game].sides
        known = [TeamId(side) for side in sides if isinstance(side, str)]
        yield from [game for side in known if side in whom]
        if rule.strength == "must" and whom & problem.possible[game]:
            yield game


def _outside(params: Any, slot: Slot) -> bool:
    ends = datetime.combine(slot.night, slot.at) + timedelta(minutes=slot.minutes)
    is_there = f"{slot.night:%A}".lower() == params.weekday and slot.at >= params.opens
    return not is_there or ends > datetime.combine(slot.night, params.closes)


def _absent(params: Any, slot: Slot) -> bool:
    return bool(params.covers(slot.start, slot.minutes))


def _too_short(params: Any, slot: Slot) -> bool:
    return bool(slot.minutes < params.minutes)


def _kept_off(params: Any, slot: Slot) -> bool:
    is_night = not params.nights or slot.night in params.nights
    return bool(is_night and params.from_ <= slot.at <= params.until)


def _elsewhere(params: Any, slot: Slot) -> bool:
    is_there = (slot.night, slot.at) == (params.night, params.at)
    return not is_there or params.field not in ("", slot.field)


def _night(least: Least, rule: Rule, params: Any) -> None:
    for team in least.teams(rule):
        for night in least.nights:
            least.limit(least.columns(team, rule, (night,)), params.most, rule)


def _week(least: Least, rule: Rule, params: Any) -> None:
    for team in least.teams(rule):
        for nights in _weeks(least):
            least.limit(least.columns(team, rule, nights), params.most, rule)


def _weeks(least: Least) -> list[list[date]]:
    weeks: dict[int, list[date]] = defaultdict(list)
    for night in least.nights:
        weeks[least.problem.week_of(night)].append(night)
    return list(weeks.values())


def _window(least: Least, rule: Rule, params: Any) -> None:
    first = least.problem.first_day
    while first + timedelta(days=params.days - 1) <= least.problem.last_day:
        last = first + timedelta(days=params.days - 1)
        nights = [night for night in least.nights if first <= night <= last]
        for team in least.teams(rule) if nights else ():
            least.limit(least.columns(team, rule, nights), params.most, rule)
        first += timedelta(days=1)


def _rest(least: Least, rule: Rule, params: Any) -> None:
    """Let one game be within the days of rest, for teams that play once a night at most."""
    if rule.strength == "wish":
        return
    once = [
        one
        for one in least.problem.rules
        if one.kind == "games_a_night"
        and one.strength == "must"
        and one.games == "all"
        and one.params.get("most") == 1
    ]
    alone = {team for one in once for team in least.teams(one)}
    for night in least.nights:
        last = night + timedelta(days=params.days)
        nights = [one for one in least.nights if night <= one <= last]
        for team in least.teams(rule):
            if team in alone:
                least.limit(least.columns(team, rule, nights), 1, rule)


def _on(least: Least, rule: Rule, params: Any) -> None:
    nights = sorted(set(params.nights))
    for team in least.teams(rule):
        least.limit(least.columns(team, rule, nights, params.side), params.most, rule)


def _idle(least: Least, rule: Rule, params: Any) -> None:
    """Charge weeks of the league that a team does not fill, as far as its games could.

    The league's weeks end where the play-offs begin: by then `over` is 1.
    """
    del params
    weeks = _weeks(least)
    over = _play_offs_begun(least, rule, weeks)
    for team in least.teams(rule):
        games = [
            least.on[one]
            for one in least.certain.get(team, ())
            if least.problem.by_game[one].pool is not None and least.looks_at(rule, one)
        ]
        free = max(0, len(weeks) - len(games))
        if not over:
            least.rows.always -= rule.cost * free
        empty = []
        for index, nights in enumerate(weeks):
            idle = least.rows.column(cost=0 if over else rule.cost)
            here = [on[night] for on in games for night in nights if night in on]
            least.rows.at_least([*here, idle, *over[index : index + 1]], 1, rule.rule)
            empty.append(idle)
        if over:
            empty += over[len(games) :]
            charged = least.rows.column(cost=rule.cost, top=len(weeks))
            signs = [*[1] * len(empty), -1]
            least.rows.at_most([*empty, charged], free, rule.rule, signs)


def _play_offs_begun(least: Least, rule: Rule, weeks: list[list[date]]) -> list[int]:
    """Return by week how far the play-offs have begun; nothing where there are none."""
    bracket = [on for game, on in least.on.items() if least.problem.by_game[game].pool is None]
    found: list[int] = []
    nights: set[date] = set()
    for week in weeks if bracket else ():
        nights.update(week)
        here = [[on[night] for night in nights if night in on] for on in bracket]
        over = least.rows.column()
        for columns in here:
            signs = [1, *[-1] * len(columns)]
            least.rows.at_least([over, *columns], 0, rule.rule, signs)
        every = [column for columns in here for column in columns]
        least.rows.at_most([over, *every], 0, rule.rule, [1, *[-1] * len(every)])
        found.append(over)
    return found


def _open_starts(least: Least, rule: Rule, params: Any) -> None:
    del params
    for night in least.nights:
        sizes = [
            len(slots) for start, slots in least.problem.starts.items() if start.night == night
        ]
        _open(least, rule, night, sizes)


def _open_nights(least: Least, rule: Rule, params: Any) -> None:
    del params
    for night in least.nights:
        _open(least, rule, night, [sum(slot.night == night for slot in least.slots)])


def _open(least: Least, rule: Rule, night: date, sizes: list[int]) -> None:
    """Let the games of a night need what is opened of it."""
    opened = [least.rows.column(cost=rule.cost) for _ in sizes]
    games = [on[night] for on in least.on.values() if night in on]
    signs = [*[1] * len(games), *(-size for size in sizes)]
    least.rows.at_most([*games, *opened], 0, rule.rule, signs)


def _listed(least: Least, rule: Rule, params: Any) -> None:
    for team in least.teams(rule):
        games = [one for one in least.certain.get(team, ()) if least.looks_at(rule, one)]
        first = [one for one in games if least.problem.by_game[one].home == team]
        over = abs(2 * len(first) - len(games)) - params.most
        least.rows.always += rule.cost * max(over, 0)


def _late(least: Least, rule: Rule, params: Any) -> None:
    del params
    due = due_weeks(least.problem)
    for game, on in least.on.items():
        one = least.problem.by_game[game]
        for night, column in on.items() if one.pool is not None else ():
            weeks = least.problem.week_of(night) - due[one.round]
            least.rows.costs[column] += rule.cost * max(0, weeks)


REFUSES: Final[Mapping[str, Callable[[Any, Slot], bool]]] = MappingProxyType(
    {
        "block": _outside,
        "absent": _absent,
        "length": _too_short,
        "not_at": _kept_off,
        "fixed": _elsewhere,
    }
)
"""The kinds that keep games out of slots, or make slots dear."""

ROWS: Final[Mapping[str, Callable[[Least, Rule, Any], None]]] = MappingProxyType(
    {
        "games_a_night": _night,
        "games_a_week": _week,
        "games_in_days": _window,
        "rest_days": _rest,
        "games_on": _on,
        "idle_week": _idle,
        "open_start": _open_starts,
        "open_night": _open_nights,
        "listed_first": _listed,
        "round_by_round": _late,
    }
)
"""The kinds that limit, or charge, what is on nights."""

RELAXED: Final = frozenset(
    {
        "after",
        "double_header",
        "even_byes",
        "even_fields",
        "even_starts",
        "gap_between_repeats",
        "never_at_once",
        "next_to_each_other",
        "no_gap",
    }
)
"""The kinds that are left out: nights alone do not settle them."""
