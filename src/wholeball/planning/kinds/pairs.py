"""Has the kinds about two teams: shared players, one captain, meeting again."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import datetime
from itertools import combinations
from typing import Final

from pydantic import Field

from wholeball.kernel.identity import TeamId
from wholeball.planning.kind import AnyKind, Found, Kind, Params
from wholeball.planning.placed import Game, Placed
from wholeball.planning.problem import Start
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted, listed


class NeverAtOnce(Params):
    """How many minutes lie between the starts of two teams' games on one night at least.

    With 1, they only never start at once.
    """

    minutes: int = Field(default=1, ge=1, le=600)


class NextToEachOther(Params):
    """Two teams that both play on a night do so one start after the other."""


class Repeats(Params):
    """How many days lie from one meeting of two teams to their next at least."""

    days: int = Field(ge=1, le=366)


def apart(one: Start, other: Start) -> int:
    """Return how many minutes lie between two starts of one night."""
    first, second = (datetime.combine(start.night, start.at) for start in (one, other))
    return abs(int((second - first).total_seconds())) // 60


def _at_once(rule: Rule, params: NeverAtOnce, placed: Placed) -> Iterator[Found]:
    for a, b in combinations(placed.concerned(rule), 2):
        for one, other in _same_night(a, b, rule, placed):
            if apart(one.start, other.start) < params.minutes:
                yield Found(
                    about=f"{a} and {b}",
                    games=(one.game, other.game),
                    says=f"{a} and {b} play {one.game} and {other.game} "
                    f"{counted(apart(one.start, other.start), 'minute')} apart.",
                )


def _next(rule: Rule, params: NextToEachOther, placed: Placed) -> Iterator[Found]:
    del params
    order = placed.order
    for a, b in combinations(placed.concerned(rule), 2):
        for one, other in _same_night(a, b, rule, placed):
            if one.start not in order or other.start not in order:
                continue
            if abs(order[one.start] - order[other.start]) != 1:
                yield Found(
                    about=f"{a} and {b}",
                    games=(one.game, other.game),
                    says=f"{a} and {b} play {one.game} and {other.game} on one night, not one "
                    "after the other.",
                )


def _same_night(
    a: TeamId, b: TeamId, rule: Rule, placed: Placed
) -> Iterator[tuple[Game, Game]]:
    for one in placed.of(a, rule):
        for other in placed.of(b, rule):
            if one.start.night == other.start.night and one.game != other.game:
                yield one, other


def _repeats(rule: Rule, params: Repeats, placed: Placed) -> Iterator[Found]:
    concerned = frozenset(placed.concerned(rule))
    meetings: dict[frozenset[object], list[Game]] = defaultdict(list)
    for one in placed.games:
        if concerned.issuperset(one.pairing.sides):
            meetings[frozenset(one.pairing.sides)].append(one)
    for games in meetings.values():
        for one, other in combinations(games, 2):
            days = (other.start.night - one.start.night).days
            if days < params.days:
                yield Found(
                    about=f"{one.pairing.home} and {one.pairing.away}",
                    games=(one.game, other.game),
                    says=f"{one.pairing.home} and {one.pairing.away} meet again after "
                    f"{counted(days, 'day')}; {params.days} at least.",
                )


def _never_says(rule: Rule, params: NeverAtOnce) -> str:
    if params.minutes == 1:
        return f"{listed(rule.teams)} never play at once."
    minutes = counted(params.minutes, "minute")
    return f"{listed(rule.teams)} start {minutes} apart at least where they play on one night."


def _repeats_says(rule: Rule, params: Repeats) -> str:
    whom = f"Any two of {listed(rule.teams)}" if len(rule.teams) > 2 else listed(rule.teams)
    days = counted(params.days, "day")
    return f"{whom or 'Two teams'} meet again after {days} at the earliest."


PAIRS: Final[tuple[AnyKind, ...]] = (
    Kind(
        name="never_at_once",
        params=NeverAtOnce,
        strengths=("must", "wish"),
        says=_never_says,
        breaks=_at_once,
        teams="several",
    ),
    Kind(
        name="next_to_each_other",
        params=NextToEachOther,
        strengths=("wish",),
        says=lambda rule, params: (  # noqa: ARG005
            f"{listed(rule.teams)} play one after the other where they play on one night."
        ),
        breaks=_next,
        teams="several",
    ),
    Kind(
        name="gap_between_repeats",
        params=Repeats,
        strengths=("must", "wish"),
        says=_repeats_says,
        breaks=_repeats,
        stages=False,
    ),
)
