"""Has the model parts about two teams."""

from collections import defaultdict
from collections.abc import Callable
from itertools import combinations
from typing import Final

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.kinds.pairs import apart
from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.part import PAIRS_OF_GAMES, Elastic, Part
from wholeball.solvers.timetable.question import Read


def _at_once(build: Build, read: Read) -> None:
    starts = build.question.starts
    _pairs_of_games(
        build, read, lambda one, other: apart(starts[one], starts[other]) < read.params.minutes
    )


def _next(build: Build, read: Read) -> None:
    _pairs_of_games(build, read, lambda one, other: abs(one - other) != 1)


def _pairs_of_games(build: Build, read: Read, is_wrong: Callable[[int, int], bool]) -> None:
    """Keep each two teams' games of one night from each two starts that are wrong together."""
    wrong = [
        (one, other)
        for starts in build.question.nights.values()
        for one in starts
        for other in starts
        if is_wrong(one, other)
    ]
    for a, b in combinations(read.teams, 2):
        for ours in _groups(build, read, a, b):
            for theirs in _groups(build, read, b, a):
                _keep_apart(build, read, (ours, theirs), wrong)


def _groups(build: Build, read: Read, team: TeamId, other: TeamId) -> list[list[GameId]]:
    """Return a team's games in groups, those against the other team each on its own."""
    games = build.question.games(team, read.rule)
    both = frozenset(build.question.games(other, read.rule))
    alone = build.apart(team, [game for game in games if game not in both])
    return [*(group for group in alone if group), *([game] for game in games if game in both)]


def _keep_apart(
    build: Build,
    read: Read,
    groups: tuple[list[GameId], list[GameId]],
    wrong: list[tuple[int, int]],
) -> None:
    ours, theirs = groups
    if ours == theirs:
        return
    mine, other = build.grouped(ours), build.grouped(theirs)
    for one, two in wrong:
        build.not_both(mine.get(one, ()), other.get(two, ()), read)


def _repeats(build: Build, read: Read) -> None:
    """Keep meetings apart, night by night of the earlier; by night or by start alike."""
    question = build.question
    concerned = frozenset(read.teams)
    meetings: dict[frozenset[object], list[GameId]] = defaultdict(list)
    for pairing in question.problem.pairings:
        if concerned.issuperset(pairing.sides):
            meetings[frozenset(pairing.sides)].append(pairing.game)
    near = [
        (
            starts,
            [
                start
                for other, others in question.nights.items()
                if abs((other - one).days) < read.params.days
                for start in others
            ],
        )
        for one, starts in question.nights.items()
    ]
    for games in meetings.values():
        for a, b in combinations(games, 2):
            mine, theirs = build.x[a], build.x[b]
            for starts, others in near:
                first = [mine[start] for start in starts if start in mine]
                second = [theirs[start] for start in others if start in theirs]
                build.not_both(first, second, read)


PAIRS: Final = (
    Part(
        kind="never_at_once",
        adds=_at_once,
        elastic=Elastic(units=PAIRS_OF_GAMES, adds=_at_once),
    ),
    Part(kind="next_to_each_other", adds=_next),
    Part(
        kind="gap_between_repeats",
        adds=_repeats,
        by_night=_repeats,
        elastic=Elastic(units=PAIRS_OF_GAMES, adds=_repeats, by_night=_repeats),
    ),
)
