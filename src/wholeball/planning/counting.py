"""Counts, without any search, whether a timetable can be: places, nights, and who can play when.

Whatever is told here is so; where nothing is told there may still be no plan.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Final, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.answer import Reason
from wholeball.planning.at_most import LIMITS
from wholeball.planning.days import clock, day
from wholeball.planning.free import Free, inside, musts
from wholeball.planning.kinds import KINDS
from wholeball.planning.pool_nights import pool_nights
from wholeball.planning.problem import Pairing, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted, listed

MOST: Final = 6
_FEW: Final = 4
Blamed: TypeAlias = tuple[tuple[Rule, ...], frozenset[str]]
"""Rules, and closures by their names."""


def quick_reasons(problem: TimetableProblem) -> tuple[Reason, ...]:
    """Return why there can be no plan, as far as counting tells; at most six reasons.

    O(games squared) in sets of slots; a season of 2,000 games takes about a second.
    """
    counts = _Counts(problem)
    reasons = (
        *counts.season(),
        *counts.locks(),
        *counts.weeks(),
        *counts.teams(),
        *counts.pairs(),
        *counts.pools(),
        *counts.groups(),
    )
    return reasons[:MOST]


@dataclass(slots=True, kw_only=True)
class _Short:
    """Teams that have so many games, can play so many, and why."""

    teams: list[TeamId]
    games: int
    can: int
    blamed: Blamed


class _Counts:
    """One question while it is counted through."""

    def __init__(self, problem: TimetableProblem) -> None:
        self.problem = problem
        self.open = [slot for slots in problem.starts.values() for slot in slots]
        closed = [one for one in problem.closed if one.slot.night not in problem.spare]
        self.free = Free(problem, [*self.open, *(one.slot for one in closed)])
        self.usable = (1 << len(self.open)) - 1
        self.closures: dict[str, int] = defaultdict(int)
        for index, one in enumerate(closed, start=len(self.open)):
            self.closures[one.by] |= 1 << index
        self.short: set[TeamId] = set()

    @cached_property
    def rules(self) -> Mapping[GameId, tuple[Rule, ...]]:
        """The rules that say where each game can be."""
        everybody: list[Rule] = []
        by_team: dict[TeamId, list[Rule]] = defaultdict(list)
        for rule in musts(self.problem):
            for team in rule.teams:
                by_team[team].append(rule)
            if not rule.teams:
                everybody.append(rule)
        found = {}
        for one in self.problem.pairings:
            teams = sorted(self.problem.possible[one.game])
            own = {rule.rule: rule for team in teams for rule in by_team[team]}
            here = (*everybody, *own.values())
            found[one.game] = tuple(rule for rule in here if self.free.about(rule, one))
        return found

    @cached_property
    def masks(self) -> Mapping[GameId, int]:
        """The slots that each game can use."""
        return {
            game: self.free.of_game(game, rules) & self.usable
            for game, rules in self.rules.items()
        }

    @cached_property
    def games(self) -> Mapping[TeamId, list[Pairing]]:
        """The games that name each team."""
        found: dict[TeamId, list[Pairing]] = defaultdict(list)
        for one in self.problem.pairings:
            for side in one.sides:
                if isinstance(side, str):
                    found[TeamId(side)].append(one)
        return found

    def season(self) -> Iterator[Reason]:
        """Find fewer places than games."""
        needed, there = len(self.problem.pairings), len(self.open)
        if needed > there:
            says = (
                f"{counted(needed, 'game needs', 'games need')} {counted(needed, 'place')}, and "
                f"there {'is' if there == 1 else 'are'} {there:,}: {needed - there:,} too few."
            )
            yield Reason(rules=("capacity",), says=says, shortage=needed - there)

    def weeks(self) -> Iterator[Reason]:
        """Find fewer games than there are that weeks can hold, by their places and their teams."""
        caps = [
            (rule, KINDS[rule.kind].read(rule).most)
            for rule in self.problem.rules
            if rule.kind == "games_a_week"
            and rule.strength == "must"
            and not rule.teams
            and rule.games == "all"
        ]
        places: dict[int, int] = defaultdict(int)
        for slot in self.open:
            places[self.problem.week_of(slot.night)] += 1
        needed = len(self.problem.pairings)
        if not caps or len(self.open) < needed:
            return
        rule, most = min(caps, key=lambda one: one[1])
        by_teams = len(self.problem.teams) * most // 2
        there = sum(min(by_teams, here) for here in places.values())
        if there < needed:
            says = (
                f"{counted(len(self.problem.teams), 'team')} of {most} games a week at most play "
                f"{there:,} games in {counted(len(places), 'week')}, and {needed:,} are to be "
                f"played: {needed - there:,} too few."
            )
            yield Reason(rules=(rule.rule, "capacity"), says=says, shortage=needed - there)

    def locks(self) -> Iterator[Reason]:
        """Find games that stay where there is no place."""
        for lock in self.problem.locks:
            if self.free.at(lock.start, lock.field) & self.usable:
                continue
            self.short.update(map(TeamId, map(str, self.problem.by_game[lock.game].sides)))
            field = "" if lock.field is None else f" on {lock.field}"
            says = (
                f"Game {lock.game} is {lock.why} for {day(lock.start.night)} at "
                f"{clock(lock.start.at)}{field}, where there is no slot."
            )
            yield Reason(rules=("lock",), says=says, shortage=1)

    def teams(self) -> Iterator[Reason]:
        """Find teams that have more games than they can play; those alike are told together."""
        found: list[_Short] = []
        for team in self.games:
            if team in self.short:
                continue
            whole = self._about_team(team)
            games, can = len(self._games_of(team)), self._can_play(team, whole)
            if can >= games:
                continue
            self.short.add(team)
            alike = next((one for one in found if self._is_alike(one, team, games, can)), None)
            if alike is not None:
                alike.teams.append(team)
            elif len(found) < MOST:

                def clashes(some: Blamed, its: TeamId = team, need: int = games) -> bool:
                    return self._can_play(its, some) < need

                blamed = self._smallest(whole, clashes)
                found.append(_Short(teams=[team], games=games, can=can, blamed=blamed))
        yield from (self._team_reason(one) for one in found)

    def _is_alike(self, one: _Short, team: TeamId, games: int, can: int) -> bool:
        rules, _ = one.blamed
        concerned = all(not rule.teams or team in rule.teams for rule in rules)
        return (
            (one.games, one.can) == (games, can)
            and concerned
            and self._can_play(team, one.blamed) < games
        )

    def _team_reason(self, one: _Short) -> Reason:
        rules, closures = one.blamed
        games = counted(one.games, "game")
        teams = [each.team for each in self.problem.teams if each.team in one.teams]
        has, apiece = ("have", " each") if len(teams) > 1 else ("has", "")
        because = [KINDS[rule.kind].sentence(rule).rstrip(".") for rule in rules]
        because += [f"closed: {name}" for name in sorted(closures)]
        why = f": {'; '.join(because)}." if because else ": there are too few starts."
        return Reason(
            rules=(*(rule.rule for rule in rules), *sorted(closures)),
            says=f"{listed(_some(teams))} {has} {games}{apiece} and can play {one.can or 'none'}{why}",
            shortage=one.games - one.can,
        )

    def pairs(self) -> Iterator[Reason]:
        """Find games for which there is no place, though each of their teams could play."""
        for one in self.problem.pairings:
            if self.masks[one.game] or self.short & set(one.sides):
                continue

            def clashes(some: Blamed, game: GameId = one.game) -> bool:
                return not self._places(game, some)

            whole = self.rules[one.game], frozenset(self.closures)
            rules, closures = self._smallest(whole, clashes)
            because = [KINDS[rule.kind].sentence(rule).rstrip(".") for rule in rules]
            because += [f"closed: {name}" for name in sorted(closures)]
            sides = " v ".join(map(str, one.sides))
            why = f": {'; '.join(because)}." if because else "."
            yield Reason(
                rules=(*(rule.rule for rule in rules), *sorted(closures)),
                says=f"Game {one.game}, {sides}, has no place{why}",
                shortage=1,
            )

    def pools(self) -> Iterator[Reason]:
        """Find pools with more games than their nights hold, where no team of them is short."""
        if not self.short:
            yield from pool_nights(self.problem, self.free.slots, self.masks, self.rules)

    def groups(self) -> Iterator[Reason]:
        """Find games that can only use places of which there are fewer than games."""
        by_mask: dict[int, list[GameId]] = defaultdict(list)
        for game, mask in self.masks.items():
            if mask:
                by_mask[mask].append(game)
        found = []
        for some in by_mask:
            if some == self.usable:
                continue
            held = [
                game for mask, games in by_mask.items() if mask & ~some == 0 for game in games
            ]
            if len(held) > some.bit_count():
                found.append((len(held) - some.bit_count(), some, held))
        told: set[GameId] = set()
        for shortage, some, held in sorted(
            found, key=lambda one: (-one[0], one[1].bit_count())
        ):
            if told.isdisjoint(held):
                told.update(held)
                yield self._group_reason(shortage, some, held)

    def _group_reason(self, shortage: int, some: int, held: Sequence[GameId]) -> Reason:
        common = frozenset.intersection(
            *(frozenset(rule.rule for rule in self.rules[game]) for game in held)
        )
        rules = [rule.rule for rule in self.problem.rules if rule.rule in common]
        nights = sorted({self.free.slots[index].night for index in inside(some)})
        named = tuple(map(day, nights[:_FEW]))
        if len(nights) > _FEW:
            named = (*named, counted(len(nights) - _FEW, "other night"))
        says = (
            f"{counted(len(held), 'game')} ({_whose(self.problem, held)}) can only be played on "
            f"{listed(named)}, in {counted(some.bit_count(), 'place')}: {shortage} too few."
        )
        return Reason(rules=(*rules, "capacity"), says=says, shortage=shortage)

    def _about_team(self, team: TeamId) -> Blamed:
        games = {one.game: None for one in self._games_of(team)}
        where = dict.fromkeys(rule.rule for game in games for rule in self.rules[game])
        limits = [
            rule
            for rule in self.problem.rules
            if rule.strength == "must"
            and rule.kind in LIMITS
            and rule.games == "all"
            and (not rule.teams or team in rule.teams)
        ]
        named = [rule for rule in self.problem.rules if rule.rule in where]
        own = [rule for rule in named if not rule.teams or team in rule.teams]
        return (*own, *limits), frozenset(self.closures)

    def _games_of(self, team: TeamId) -> list[Pairing]:
        return self.games[team]

    def _can_play(self, team: TeamId, some: Blamed) -> int:
        """Return how many of its games a team can play at most, by some rules and closures."""
        rules, closures = some
        where = [rule for rule in rules if rule.kind not in LIMITS]
        by_game = [
            self._usable(closures)
            & self.free.of_game(
                one.game, [rule for rule in where if self.free.about(rule, one)]
            )
            for one in self._games_of(team)
        ]
        placeable = sum(1 for mask in by_game if mask)
        every = 0
        for mask in by_game:
            every |= mask
        starts: dict[date, set[object]] = defaultdict(set)
        for slot, mask in self.free.alike:
            if mask & every:
                starts[slot.night].add(slot.at)
        most = {night: len(times) for night, times in sorted(starts.items())}
        for rule in rules:
            if rule.kind == "games_a_night":
                cap = KINDS[rule.kind].read(rule).most
                most = {night: min(cap, here) for night, here in most.items()}
        limits = [rule for rule in rules if rule.kind in LIMITS]
        return min(
            placeable, sum(most.values()), *(self._at_most(rule, most) for rule in limits)
        )

    def _at_most(self, rule: Rule, most: Mapping[date, int]) -> int:
        return LIMITS[rule.kind](self.problem, KINDS[rule.kind].read(rule), most)

    def _places(self, game: GameId, some: Blamed) -> int:
        rules, closures = some
        return self._usable(closures) & self.free.of_game(game, rules)

    def _usable(self, closures: Iterable[str]) -> int:
        """Return the slots that can be used where only these closures hold."""
        mask = self.free.every
        for name in closures:
            mask &= ~self.closures[name]
        return mask

    def _smallest(self, whole: Blamed, clashes: Callable[[Blamed], bool]) -> Blamed:
        """Take out whatever is not needed for a clash: closures last, teams' own rules first."""
        rules, closures = whole
        for rule in sorted(rules, key=lambda one: (bool(one.teams), one.rule)):
            fewer = tuple(one for one in rules if one is not rule)
            if clashes((fewer, closures)):
                rules = fewer
        for name in sorted(closures):
            if clashes((rules, closures - {name})):
                closures = closures - {name}
        return rules, closures


def _some(teams: Sequence[TeamId]) -> tuple[str, ...]:
    """Name teams, four at most, and say how many others there are."""
    if len(teams) <= _FEW + 1:
        return tuple(teams)
    return (*teams[:_FEW], f"{len(teams) - _FEW} other teams")


def _whose(problem: TimetableProblem, held: Sequence[GameId]) -> str:
    """Name games by their pools where they are all of them, or else by their names."""
    here = frozenset(held)
    pools = {problem.by_game[game].pool for game in held}
    whole = [one.game for one in problem.pairings if one.pool in pools]
    if None not in pools and len(whole) == len(here):
        names = sorted(map(str, pools))
        return f"all of {'pool' if len(names) == 1 else 'pools'} {listed(tuple(names))}"
    more = f" and {len(held) - _FEW} more" if len(held) > _FEW else ""
    return f"{', '.join(held[:_FEW])}{more}"
