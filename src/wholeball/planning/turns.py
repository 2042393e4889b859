"""Numbers the rounds of pools by the calendar, so that a table after a round is one of a day.

A round is what a pool plays in a week; where a team plays again on a later night of the week, a
round of its own begins that night. Weeks without a game of the pool are not counted.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from itertools import groupby
from typing import Final, NamedTuple

from wholeball.kernel.identity import GameId, PoolId
from wholeball.planning.problem import Pairing, Placement, TimetableProblem

LAST: Final = 99
"""The last round there is; whatever comes after it is of it too."""


class _Game(NamedTuple):
    night: date
    week: int
    pairing: Pairing


def in_rounds(
    problem: TimetableProblem,
    placements: Iterable[Placement],
    keep: Collection[GameId] = (),
) -> Mapping[GameId, Pairing]:
    """Return the games of a plan, each with its round by the calendar; play-offs keep theirs.

    Those of `keep` have been published with a round and keep it. Any other game of their pool is
    of the round that is played in its week, or else of the one after the last game before it,
    but never of a later one than the next game that is kept.
    """
    found = dict(problem.by_game)
    pools: dict[PoolId, list[_Game]] = defaultdict(list)
    for one in placements:
        pairing, night = found[one.game], one.start.night
        if pairing.pool is not None:
            pools[pairing.pool].append(_Game(night, problem.week_of(night), pairing))
    for several in pools.values():
        games = sorted(several, key=lambda one: (one.night, one.pairing.game))
        has_kept = any(one.pairing.game in keep for one in games)
        numbers = _between(games, keep) if has_kept else _anew(games)
        for (_, _, pairing), number in zip(games, numbers, strict=True):
            found[pairing.game] = replace(pairing, round=min(number, LAST))
    return found


def kept(problem: TimetableProblem, placements: Iterable[Placement]) -> frozenset[GameId]:
    """Return the games that a plan leaves where they were announced."""
    return frozenset(one.game for one in {*problem.announced}.intersection(placements))


def _anew(games: Sequence[_Game]) -> Iterator[int]:
    """Yield the round of each game: a new one each week, and where a team would play again."""
    number, week = 0, None
    busy: set[object] = set()
    for _, tonight in groupby(games, key=lambda one: one.night):
        here = list(tonight)
        sides = {side for one in here for side in one.pairing.sides}
        if here[0].week != week or busy & sides:
            number, week, busy = number + 1, here[0].week, set()
        busy |= sides
        yield from (number for _ in here)


def _between(games: Sequence[_Game], keep: Collection[GameId]) -> Iterator[int]:
    """Yield the round of each game, those to be kept as they are and the others between them."""
    fixed = [one for one in games if one.pairing.game in keep]
    before: tuple[int, int] | None = None
    for one in games:
        if one.pairing.game in keep:
            before = one.week, one.pairing.round
        else:
            here = [each for each in fixed if each.night == one.night]
            later = [each for each in fixed if each.night > one.night]
            before = one.week, _round(one, before, here, later)
        yield before[1]


def _round(
    one: _Game,
    before: tuple[int, int] | None,
    here: Sequence[_Game],
    later: Sequence[_Game],
) -> int:
    """Return the round of a game: that of its night, or of its week, or one in between."""
    if here:
        return here[-1].pairing.round
    if before is not None and before[0] == one.week:
        return before[1]
    following = (0 if before is None else before[1]) + 1
    if not later:
        return following
    following_kept = later[0].pairing.round
    return following_kept if later[0].week == one.week else min(following, following_kept)
