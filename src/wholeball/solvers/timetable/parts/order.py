"""Has the model parts about which game comes after which."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any, Final

from wholeball.kernel.identity import GameId
from wholeball.league.fixture import From, Seeded
from wholeball.planning.kinds.order import minutes_between
from wholeball.planning.problem import Pairing, Slot, Start
from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.part import GAMES, PAIRS_OF_GAMES, Elastic, Part
from wholeball.solvers.timetable.question import Question, Read, Where


def _after(build: Build, read: Read) -> None:
    for later in build.question.problem.pairings:
        for side in later.sides:
            if isinstance(side, From):
                _after_one(build, read, side.game, later.game)
    _after_pools(build, read)


def _after_one(build: Build, read: Read, earlier: GameId, later: GameId) -> None:
    """Let a later game be at a place only if the earlier is at one long enough before.

    Summed over all places so late, which says the same and more to a solver that relaxes.
    """
    firsts = sorted(build.each(earlier))
    lasts = sorted(build.each(later))
    for count in range(1, len(lasts) + 1):
        place = lasts[count - 1][0]
        before = [column for other, column in firsts if _is_before(build, read, other, place)]
        until = [column for _, column in lasts[:count]]
        signs = [1] * len(until) + [-1] * len(before)
        build.rows.at_most([*until, *before], 0, read.rule.rule, signs)


def _is_before(build: Build, read: Read, earlier: int, later: int) -> bool:
    """Tell whether a start lies long enough before another; by night, whether one can."""
    question = build.question
    first, last = question.starts[earlier], question.starts[later]
    if build.by_night:
        last = question.starts[question.nights[last.night][-1]]
    return bool(minutes_between(first, last) >= read.params.minutes)


def _after_pools(build: Build, read: Read) -> None:
    """Let games that seeds bring wait for every game of the pools.

    One column a place says that one of them has begun there or before.
    """
    seeded = [one for one in build.question.problem.pairings if _is_seeded(one)]
    if not seeded:
        return
    brackets = build.grouped(one.game for one in seeded)
    pools = build.grouped(
        one.game for one in build.question.problem.pairings if one.pool is not None
    )
    begun = {place: build.rows.column() for place in sorted(brackets)}
    owner = read.rule.rule
    for one, other in pairwise(begun.values()):
        build.rows.at_most([one, other], 0, owner, [1, -1])
    for place, columns in brackets.items():
        for column in columns:
            build.rows.at_most([column, begun[place]], 0, owner, [1, -1])
    for place, columns in pools.items():
        late = [there for there in begun if not _is_before(build, read, place, there)]
        if late:
            most = len(columns)
            build.rows.at_most([*columns, begun[late[-1]]], most, owner, [*[1] * most, most])


def _after_loosened(build: Build, read: Read) -> None:
    """Count the games that do not begin long enough before one that needs their outcome."""
    for later in build.question.problem.pairings:
        earlier = {side.game for side in later.sides if isinstance(side, From)}
        if _is_seeded(later):
            pools = build.question.problem.pairings
            earlier |= {one.game for one in pools if one.pool is not None}
        if later.game in build.question.problem.played:
            earlier -= build.question.problem.played
        if earlier:
            _late_loosened(build, read, sorted(earlier), later.game)


def _late_loosened(build: Build, read: Read, earlier: Sequence[GameId], later: GameId) -> None:
    """Count which of these are too late, wherever the later game is."""
    late = build.slack(read, top=len(earlier))
    every = build.grouped(earlier)
    until: list[int] = []
    for place, column in sorted(build.each(later)):
        until.append(column)
        after = [
            one
            for other, columns in every.items()
            if not _is_before(build, read, other, place)
            for one in columns
        ]
        most = len(earlier)
        signs = [*[1] * len(after), *[most] * len(until), -1]
        build.rows.at_most([*after, *until, late], most, read.rule.rule, signs)


def _is_seeded(pairing: Pairing) -> bool:
    return any(isinstance(side, Seeded) for side in pairing.sides)


def _is_there(params: Any, slot: Slot) -> bool:
    return slot.start == Start(params.night, params.at) and params.field in ("", slot.field)


def _named(question: Question, read: Read) -> Iterable[GameId]:
    game = GameId(read.params.game_name)
    return (game,) if game in question.problem.by_game else ()


ORDER: Final = (
    Part(
        kind="after",
        adds=_after,
        by_night=_after,
        elastic=Elastic(units=PAIRS_OF_GAMES, adds=_after_loosened, by_night=_after_loosened),
    ),
    Part(
        kind="fixed",
        where=Where(allows=_is_there, by_field=True, named=_named),
        elastic=Elastic(units=GAMES),
    ),
)
