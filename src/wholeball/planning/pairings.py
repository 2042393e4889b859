"""Makes the games of a season's pools, before anybody knows when they are played."""

from collections.abc import Iterator, Mapping, Sequence

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.planning.problem import Pairing
from wholeball.planning.round_robin import Round, part_of_round_robin, round_robin


def pairings(
    pools: Mapping[PoolId, Sequence[TeamId]],
    *,
    games_each: int | None = None,
    meetings: int = 1,
    first: int = 1,
) -> tuple[Pairing, ...]:
    """Return the games of all pools, numbered from `first` on, round by round.

    With `games_each` every team plays so many: against others each as long as there are any,
    then they meet again, listed the other way round. Without it all meet so many times.

    Raises:
        ValueError: a pool cannot play so, or a pool has fewer than two teams.
    """
    placed = [
        (number, pool, home, away)
        for pool, teams in pools.items()
        for number, games in enumerate(_rounds(len(teams), games_each, meetings), start=1)
        for home, away in (_named(teams, pair) for pair in games)
    ]
    placed.sort(key=lambda one: one[0])
    return tuple(
        Pairing(game=GameId(f"{first + index}"), home=home, away=away, round=number, pool=pool)
        for index, (number, pool, home, away) in enumerate(placed)
    )


def _named(teams: Sequence[TeamId], pair: tuple[int, int]) -> tuple[TeamId, TeamId]:
    home, away = pair
    return teams[home - 1], teams[away - 1]


def _rounds(teams: int, games_each: int | None, meetings: int) -> tuple[Round, ...]:
    if games_each is None:
        return tuple(_meetings(round_robin(teams, is_berger=meetings > 1), meetings))
    again, rest = divmod(games_each, teams - 1)
    full = tuple(_meetings(round_robin(teams), again))
    part = part_of_round_robin(teams, rest) if rest else ()
    return full + (tuple(map(_turned, part)) if again % 2 else part)


def _meetings(once: tuple[Round, ...], meetings: int) -> Iterator[Round]:
    """Repeat the rounds with sides changed; a cycle that is repeated ends the other way round.

    Exchanging its last two rounds keeps a team from being listed on one side three times on end
    (FIDE Handbook C.05 Annex 1).
    """
    for cycle in range(meetings):
        rounds = once
        if cycle < meetings - 1 and len(once) > 2:
            rounds = (*once[:-2], once[-1], once[-2])
        for games in rounds:
            yield games if cycle % 2 == 0 else _turned(games)


def _turned(games: Round) -> Round:
    return tuple((away, home) for home, away in games)
