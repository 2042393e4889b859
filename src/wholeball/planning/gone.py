"""Tells which teams have left, as far as a timetable shows it: they have too few games, all played."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.planning.problem import Pairing


def gone(
    pools: Mapping[PoolId, Sequence[TeamId]],
    pairings: Iterable[Pairing],
    played: AbstractSet[GameId],
    amount: Callable[[PoolId, int], int],
) -> frozenset[TeamId]:
    """Return the teams that have no game to come, and fewer games than their pool plays.

    `amount` says how many games each team of a pool of so many teams plays. Whoever has left
    counts no more among them. A pool without a game has nobody who left.
    """
    games: Counter[TeamId] = Counter()
    to_come: set[TeamId] = set()
    for one in pairings:
        sides = [TeamId(side) for side in one.sides if isinstance(side, str)]
        games.update(sides if one.pool is not None else ())
        to_come.update(sides if one.game not in played else ())
    found: set[TeamId] = set()
    for pool, teams in pools.items():
        stay = len(teams)
        for team in sorted(teams, key=lambda one: games[one]):
            has_left = team not in to_come and games[team] < amount(pool, stay)
            if has_left and any(games[one] for one in teams):
                found.add(team)
                stay -= 1
    return frozenset(found)
