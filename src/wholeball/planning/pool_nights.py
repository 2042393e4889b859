"""Counts how many games a pool can play on its nights, each team so many a night at most."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.planning.answer import Reason
from wholeball.planning.free import inside
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import Slot, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted


def pool_nights(
    problem: TimetableProblem,
    slots: Sequence[Slot],
    masks: Mapping[GameId, int],
    rules: Mapping[GameId, tuple[Rule, ...]],
) -> Iterator[Reason]:
    """Yield a reason for each pool whose nights hold fewer games than it has.

    Seven teams of one game a night play three games on one, and one of them is idle. `masks`
    has the slots that each game can use, `rules` those that say so.
    """
    pools: dict[PoolId, list[GameId]] = defaultdict(list)
    for one in problem.pairings:
        if one.pool is not None:
            pools[one.pool].append(one.game)
    for pool, games in pools.items():
        teams = {side for game in games for side in problem.by_game[game].sides}
        cap = _cap(problem, frozenset(map(TeamId, map(str, teams))))
        if cap is None:
            continue
        rule, most = cap
        by_night = _places(games, slots, masks)
        a_night = len(teams) * most // 2
        there = sum(min(a_night, places) for places in by_night.values())
        if there < len(games):
            common = frozenset.intersection(
                *(frozenset(one.rule for one in rules[game]) for game in games)
            )
            own = [one.rule for one in problem.rules if one.rule in common]
            yield Reason(
                rules=(*own, rule.rule),
                says=f"Pool {pool} has {len(teams)} teams of {counted(most, 'game')} a night "
                f"at most, which play "
                f"{counted(there, 'game')} at most on {counted(len(by_night), 'night')}, and "
                f"{len(games):,} are to be played: {len(games) - there:,} too few.",
                shortage=len(games) - there,
            )


def _cap(problem: TimetableProblem, teams: frozenset[TeamId]) -> tuple[Rule, int] | None:
    """Return the rule that lets the teams play fewest games a night, if there is one."""
    found = [
        (rule, int(KINDS[rule.kind].read(rule).most))
        for rule in problem.rules
        if rule.kind == "games_a_night"
        and rule.strength == "must"
        and rule.games != "play_off"
        and (not rule.teams or teams.issubset(rule.teams))
    ]
    return min(found, key=lambda one: one[1], default=None)


def _places(
    games: Sequence[GameId], slots: Sequence[Slot], masks: Mapping[GameId, int]
) -> Mapping[date, int]:
    every = 0
    for game in games:
        every |= masks[game]
    found: dict[date, int] = defaultdict(int)
    for index in inside(every):
        found[slots[index].night] += 1
    return found
