"""Has the tables by which the teams of a pool meet, round by round.

Up to ten teams the tables have the least carry-over known: how often one team follows another as
opponent of a third (values of the RobinX collection: 12, 60, 56 and 108 for 4, 6, 8 and 10
teams). Berger's tables, of the FIDE Handbook C.05 Annex 1, have 12 and 60 for 4 and 6 as well;
for 8 and 10 other tables stand here, and beyond them Berger's are taken.
"""

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from typing import Final, TypeAlias

Round: TypeAlias = tuple[tuple[int, int], ...]
"""The games of a round, by the numbers of the teams from 1; the first is listed first."""

_EIGHT: Final[tuple[Round, ...]] = (
    ((1, 2), (4, 3), (6, 5), (7, 8)),
    ((3, 1), (2, 4), (5, 7), (8, 6)),
    ((1, 5), (6, 2), (7, 3), (8, 4)),
    ((4, 1), (3, 2), (5, 8), (6, 7)),
    ((1, 7), (2, 8), (3, 5), (4, 6)),
    ((8, 1), (7, 2), (6, 3), (5, 4)),
    ((1, 6), (2, 5), (3, 8), (4, 7)),
)
_TEN: Final[tuple[Round, ...]] = (
    ((1, 3), (6, 2), (5, 4), (10, 7), (8, 9)),
    ((9, 1), (2, 5), (3, 6), (4, 10), (7, 8)),
    ((1, 4), (9, 2), (8, 3), (5, 7), (10, 6)),
    ((7, 1), (8, 2), (3, 4), (10, 5), (6, 9)),
    ((1, 8), (2, 10), (5, 3), (4, 6), (9, 7)),
    ((6, 1), (4, 2), (3, 7), (5, 8), (10, 9)),
    ((1, 10), (2, 3), (8, 4), (9, 5), (7, 6)),
    ((2, 1), (3, 9), (4, 7), (5, 6), (8, 10)),
    ((1, 5), (7, 2), (10, 3), (9, 4), (6, 8)),
)


def round_robin(teams: int, *, is_berger: bool = False) -> tuple[Round, ...]:
    """Return the rounds in which so many teams all meet once.

    Where their number is odd, one team has a bye each round, and each has one. Berger's tables
    can be asked for: repeated, they keep sides apart better than others.

    Raises:
        ValueError: fewer than two teams.
    """
    if teams < 2:
        raise ValueError(f"a round robin has 2 teams or more, got {teams}")
    size = teams + teams % 2
    stored = None if is_berger else {8: _EIGHT, 10: _TEN}.get(size)
    full = stored or berger(size)
    return tuple(tuple(game for game in games if max(game) <= teams) for games in full)


def berger(teams: int) -> tuple[Round, ...]:
    """Return the Berger table of an even number of teams (FIDE Handbook C.05 Annex 1).

    Raises:
        ValueError: the number is odd or below 2.
    """
    if teams < 2 or teams % 2:
        raise ValueError(f"a Berger table has an even number of teams, got {teams}")
    return tuple(_berger_round(number, teams) for number in range(1, teams))


def _berger_round(number: int, teams: int) -> Round:
    """Return round `number`: whom the last team meets, and the others symmetric about it."""
    ring = teams - 1
    meets = (number - 1) * (teams // 2) % ring
    last = (meets + 1, teams) if number % 2 else (teams, meets + 1)
    others = (
        ((meets + step) % ring + 1, (meets - step) % ring + 1) for step in range(1, teams // 2)
    )
    return (last, *others)


def part_of_round_robin(teams: int, games: int) -> tuple[Round, ...]:
    """Return rounds in which each team plays exactly so many games, against others each.

    An even number of teams plays the first rounds of its table. An odd number needs an even
    number of games: then each meets those that stand next to it in a ring.

    Raises:
        ValueError: there is no such table.
    """
    if not 1 <= games < teams:
        raise ValueError(f"{teams} teams meet 1 to {teams - 1} others, got {games}")
    if teams % 2 == 0:
        return round_robin(teams)[:games]
    if games % 2:
        raise ValueError(f"{teams} teams cannot play {games} games each: both are odd")
    if games == teams - 1:
        return round_robin(teams)
    ring = [
        (team + 1, (team + step) % teams + 1)
        for step in range(1, games // 2 + 1)
        for team in range(teams)
    ]
    return _in_rounds(ring)


def _in_rounds(games: Sequence[tuple[int, int]]) -> tuple[Round, ...]:
    """Put each game into the first round in which both of its teams are free."""
    rounds: list[list[tuple[int, int]]] = []
    for game in games:
        free = next(
            (
                taken
                for taken in rounds
                if not {*game} & {one for pair in taken for one in pair}
            ),
            None,
        )
        if free is None:
            rounds.append([game])
        else:
            free.append(game)
    return tuple(map(tuple, rounds))


def carry_over(rounds: Sequence[Round]) -> int:
    """Return the carry-over value: the sum of squares over ordered pairs of opponents.

    Each pair counts how often the second follows the first as somebody's opponent, the first
    round after the last included.
    """
    opponents = [
        {one: other for pair in games for one, other in (pair, pair[::-1])} for games in rounds
    ]
    following = Counter(
        (now[team], then[team])
        for now, then in zip(opponents, [*opponents[1:], opponents[0]], strict=True)
        for team in now
    )
    return sum(times * times for times in following.values())


def breaks(rounds: Sequence[Round]) -> int:
    """Return how often a team is listed on the same side in two rounds on end."""
    sides = [
        {team: side for pair in games for side, team in enumerate(pair)} for games in rounds
    ]
    return sum(
        now[team] == then[team] for now, then in pairwise(sides) for team in now if team in then
    )
