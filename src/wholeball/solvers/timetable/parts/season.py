"""Has the model parts about the season as a whole."""

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Final

from wholeball.kernel.identity import GameId, TeamId
from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.part import Elastic, Part
from wholeball.solvers.timetable.question import Read


def _idle(build: Build, read: Read) -> None:
    """Charge each week without a game of the league, but for those that no team can fill.

    Weeks from the one on in which the play-offs begin are none of the league's; whoever has
    fewer games than the league has weeks is idle in the rest of them for nothing.
    """
    begun = _begun(build, read)
    for team in read.teams:
        games = [
            game for game in build.question.games(team, read.rule) if _of_pool(build, game)
        ]
        weeks = list(_by_week(build, games))
        spare = max(0, len(weeks) - len(games))
        if not begun:
            build.rows.always -= read.rule.cost * spare
            for here in weeks:
                idle = build.rows.column(cost=read.rule.cost)
                build.rows.at_least([*here, idle], 1, read.rule.rule)
            continue
        idle_in = [build.rows.column() for _ in weeks]
        for here, idle, over in zip(weeks, idle_in, begun, strict=True):
            build.rows.at_least([*here, idle, over], 1, read.rule.rule)
        charged = build.rows.column(cost=read.rule.cost, top=len(weeks))
        columns = [*idle_in, *begun[len(games) :]]
        build.rows.at_most(
            [*columns, charged], spare, read.rule.rule, [*[1] * len(columns), -1]
        )


def _begun(build: Build, read: Read) -> list[int]:
    """Return a column for each week, which is true where the play-offs have begun by then."""
    bracket = [game for game in build.x if not _of_pool(build, game)]
    if not bracket:
        return []
    so_far: dict[GameId, list[int]] = {game: [] for game in bracket}
    begun = []
    for starts in build.question.weeks.values():
        over, week = build.rows.column(), frozenset(starts)
        for game, columns in so_far.items():
            columns += [column for start, column in build.each(game) if start in week]
            signs = [1, *[-1] * len(columns)]
            build.rows.at_least([over, *columns], 0, read.rule.rule, signs)
        every = list(chain.from_iterable(so_far.values()))
        build.rows.at_most([over, *every], 0, read.rule.rule, [1, *[-1] * len(every)])
        begun.append(over)
    return begun


def _of_pool(build: Build, game: GameId) -> bool:
    return build.question.problem.by_game[game].pool is not None


def _by_week(build: Build, games: Iterable[GameId]) -> Iterator[list[int]]:
    """Yield the columns of a team's games week by week."""
    by_place = build.grouped(games)
    for starts in build.question.weeks.values():
        yield list(chain.from_iterable(by_place.get(start, ()) for start in starts))


def _byes(build: Build, read: Read) -> None:
    """Hold each team's idle weeks to the fewest, which is a column that no team is below."""
    rows, owner, weeks = build.rows, read.rule.rule, len(build.question.weeks)
    fewest = rows.column(top=weeks)
    for team in read.teams:
        idle = list(_exactly_idle(build, read, team))
        ones = [1] * len(idle)
        rows.at_least([*idle, fewest], 0, owner, [*ones, -1])
        if build.is_held(read):
            rows.at_most([*idle, fewest], read.params.most, owner, [*ones, -1])
        else:
            over = build.slack(read, top=weeks)
            rows.at_most([*idle, fewest, over], read.params.most, owner, [*ones, -1, -1])


def _exactly_idle(build: Build, read: Read, team: TeamId) -> Iterator[int]:
    for here in _by_week(build, build.question.games(team, read.rule)):
        idle = build.rows.column()
        build.rows.at_least([*here, idle], 1, read.rule.rule)
        for column in here:
            build.rows.at_most([column, idle], 1, read.rule.rule)
        yield idle


def _starts(build: Build, read: Read) -> None:
    """Charge each start that is opened; by night, as many as its games need at least."""
    question = build.question
    if not build.by_night:
        for start, mask in enumerate(question.masks):
            _opened(build, read, (start,), mask.bit_count())
        return
    for starts in question.nights.values():
        here = build.everywhere.get(starts[0], ())
        if here:
            sizes = Counter(question.masks[start].bit_count() for start in starts)
            opened = [build.rows.column(cost=read.rule.cost, top=top) for top in sizes.values()]
            signs = [1] * len(here) + [-size for size in sizes]
            build.rows.at_most([*here, *opened], 0, read.rule.rule, signs)


def _nights(build: Build, read: Read) -> None:
    for starts in build.question.nights.values():
        slots = sum(build.question.masks[start].bit_count() for start in starts)
        _opened(build, read, starts, slots)


def _opened(build: Build, read: Read, starts: Iterable[int], slots: int) -> None:
    here = list(chain.from_iterable(build.everywhere.get(start, ()) for start in starts))
    if here:
        opened = build.rows.column(cost=read.rule.cost)
        signs = [1] * len(here) + [-slots]
        build.rows.at_most([*here, opened], 0, read.rule.rule, signs)


def _listed(build: Build, read: Read) -> None:
    """Charge what no plan can change: who is listed first is settled by the pairings."""
    problem = build.question.problem
    for team in read.teams:
        games = build.question.games(team, read.rule)
        first = sum(problem.by_game[game].home == team for game in games)
        over = abs(2 * first - len(games)) - read.params.most
        build.rows.always += read.rule.cost * max(0, over)


SEASON: Final = (
    Part(kind="idle_week", adds=_idle, by_night=_idle),
    Part(
        kind="even_byes",
        adds=_byes,
        by_night=_byes,
        elastic=Elastic(units=("idle week", "idle weeks"), adds=_byes, by_night=_byes),
    ),
    Part(kind="open_night", adds=_nights, by_night=_nights),
    Part(kind="open_start", adds=_starts, by_night=_starts),
    Part(kind="listed_first", adds=_listed, by_night=_listed),
)
