"""Has the model parts of limits: a night, a week, a window, rest, in a row."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from itertools import chain, combinations, product
from typing import Final

from wholeball.kernel.identity import GameId, TeamId
from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.part import GAMES, PAIRS_OF_GAMES, Elastic, Part
from wholeball.solvers.timetable.question import Question, Read

IN_WINDOWS: Final = ("game too many in a window", "games too many in windows")
NIGHTS: Final = ("pair of nights", "pairs of nights")


def _night(build: Build, read: Read) -> None:
    """Limit nights, but for teams whose rest says as much already: a night is in a window."""
    rested = frozenset() if build.is_elastic else _rested(build.question, read)
    _limits(build, read, build.question.nights.values(), besides=rested)


def _rested(question: Question, read: Read) -> frozenset[TeamId]:
    """Return teams of whose games of a window of nights one at most is played, by rest."""
    if not _is_once(read):
        return frozenset()
    rests = (one for one in question.rules if one.is_must and one.rule.kind == "rest_days")
    return frozenset(team for one in rests if one.rule.games == "all" for team in one.teams)


def _week(build: Build, read: Read) -> None:
    _limits(build, read, build.question.weeks.values())


def _window(build: Build, read: Read) -> None:
    """Add a row a window, all those that lie within the season."""
    _limits(build, read, list(_windows(build.question, read.params.days)))


def _window_loosened(build: Build, read: Read) -> None:
    """Count the games too many in each window of which the nights do not all lie in another."""
    windows = dict.fromkeys(_windows(build.question, read.params.days))
    widest = [one for one in windows if not any(set(one) < set(other) for other in windows)]
    _limits(build, read, widest)


def _limits(
    build: Build,
    read: Read,
    spans: Iterable[tuple[int, ...]],
    besides: frozenset[TeamId] = frozenset(),
) -> None:
    for team, games in build.question.together(read):
        if team in besides:
            continue
        by_place = build.grouped(games)
        for starts in spans:
            build.limit(_at(by_place, starts), read.params.most, read, (team, starts))


def _at(by_place: Mapping[int, list[int]], starts: Iterable[int]) -> list[int]:
    return list(chain.from_iterable(by_place.get(start, ()) for start in starts))


def _windows(question: Question, days: int) -> Iterator[tuple[int, ...]]:
    problem = question.problem
    first = problem.first_day
    while first + timedelta(days=days - 1) <= problem.last_day:
        starts = _within(question, first, days)
        if starts:
            yield starts
        first += timedelta(days=1)


def _within(question: Question, first: date, days: int) -> tuple[int, ...]:
    return tuple(
        start
        for offset in range(days)
        for start in question.nights.get(first + timedelta(days=offset), ())
    )


def _rest(build: Build, read: Read) -> None:
    """Let no two nights that a team plays on lie too near; one night may hold several games."""
    if not read.is_must:
        _rest_wished(build, read)
        return
    question = build.question
    windows = _widest(_within(question, one, read.params.days + 1) for one in question.nights)
    for team, games in question.together(read):
        once = _plays_once(question, team)
        by_place = build.grouped(games) if once else _active(build, read, games)
        for window in windows:
            build.limit(_at(by_place, window), 1, read)


def _widest(windows: Iterable[tuple[int, ...]]) -> list[tuple[int, ...]]:
    """Drop each window that lies in the one before it."""
    found: list[tuple[int, ...]] = []
    for window in windows:
        if not found or window[-1] > found[-1][-1]:
            found.append(window)
    return found


def _active(build: Build, read: Read, games: Iterable[GameId]) -> Mapping[int, list[int]]:
    """Return a column a night, true where one of these games is on it, at its first start."""
    by_place = build.grouped(games)
    found = {}
    for starts in build.question.nights.values():
        here = _at(by_place, starts)
        if here:
            active = build.rows.column()
            found[starts[0]] = [active]
            for column in here:
                build.rows.at_most([column, active], 0, read.rule.rule, [1, -1])
    return found


def _rest_loosened(build: Build, read: Read) -> None:
    """Count each two nights of a team that lie too near.

    A window with several nights has one such pair fewer at least, which follows in whole numbers
    and says more to a solver that relaxes.
    """
    question, owner = build.question, read.rule.rule
    windows = [
        {question.nights[question.starts[start].night][0]: None for start in window}
        for window in _widest(
            _within(question, one, read.params.days + 1) for one in question.nights
        )
    ]
    near = sorted({pair for window in windows for pair in combinations(window, 2)})
    for team, games in question.together(read):
        active = {place: one for place, (one,) in _active(build, read, games).items()}
        over = {}
        for one, later in near:
            if one in active and later in active and not _are_past(build, games, one, later):
                over[one, later] = build.slack(read, about=(team, one, later))
                columns = [active[one], active[later], over[one, later]]
                build.rows.at_most(columns, 1, owner, [1, 1, -1])
        for window in windows:
            here = [active[place] for place in window if place in active]
            pairs = [over[pair] for pair in combinations(window, 2) if pair in over]
            if len(here) > 2 and len(pairs) == len(here) * (len(here) - 1) // 2:
                signs = [*[1] * len(here), *[-1] * len(pairs)]
                build.rows.at_most([*here, *pairs], 1, owner, signs)


def _are_past(build: Build, games: Iterable[GameId], one: int, later: int) -> bool:
    """Tell whether a game has been played on each of two nights."""
    question = build.question
    played = {
        question.starts[place].night
        for game in games
        if game in question.problem.played
        for place, _ in build.each(game)
    }
    return {question.starts[one].night, question.starts[later].night} <= played


def _rest_wished(build: Build, read: Read) -> None:
    """Charge each two games of a team that lie too near, night by night of the earlier."""
    nights = build.question.nights
    after = {
        night: [
            start
            for other, starts in nights.items()
            if 1 <= (other - night).days <= read.params.days
            for start in starts
        ]
        for night in nights
    }
    for team in read.teams:
        for a, b in combinations(build.question.games(team, read.rule), 2):
            for one, other in ((build.x[a], build.x[b]), (build.x[b], build.x[a])):
                for night, starts in nights.items():
                    first = [one[start] for start in starts if start in one]
                    later = [other[start] for start in after[night] if start in other]
                    build.not_both(first, later, read)


def _plays_once(question: Question, team: TeamId) -> bool:
    """Tell whether a team plays once a night at most by a rule that looks at all games."""
    return any(_is_once(one) and team in one.teams for one in question.rules)


def _is_once(read: Read) -> bool:
    is_of_all = read.rule.kind == "games_a_night" and read.rule.games == "all"
    return is_of_all and read.is_must and read.params.most == 1


def _on(build: Build, read: Read) -> None:
    question = build.question
    starts = [
        start for night in set(read.params.nights) for start in question.nights.get(night, ())
    ]
    for team, played in question.together(read):
        games = [game for game in played if _listed(question, game, team, read.params.side)]
        build.limit(_at(build.grouped(games), starts), read.params.most, read, team)


def _listed(question: Question, game: GameId, team: TeamId, side: str) -> bool:
    pairing = question.problem.by_game[game]
    sides = {"any": pairing.sides, "first": (pairing.home,), "second": (pairing.away,)}
    return team in sides[side]


def _double(build: Build, read: Read) -> None:
    """Keep games of a team on one night near, where it has no game between them."""
    most = read.params.starts_between + 1
    far = [
        (one, later, range(one + 1, later))
        for starts in build.question.nights.values()
        for one in starts
        for later in starts
        if later - one > most
    ]
    for team, games in build.question.together(read):
        every = build.grouped(games)
        groups = [(tuple(one), build.grouped(one)) for one in build.apart(team, games)]
        for one, later, between in far:
            unless = _at(every, between)
            for (some, first), (others, last) in product(groups, repeat=2):
                build.not_both(
                    first.get(one, ()),
                    last.get(later, ()),
                    read,
                    unless,
                    about=(team, some, others, one, later),
                )


LIMITS: Final = (
    Part(
        kind="games_a_night",
        adds=_night,
        by_night=_night,
        elastic=Elastic(units=GAMES, adds=_night, by_night=_night),
    ),
    Part(
        kind="games_a_week",
        adds=_week,
        by_night=_week,
        elastic=Elastic(units=GAMES, adds=_week, by_night=_week),
    ),
    Part(
        kind="games_in_days",
        adds=_window,
        by_night=_window,
        elastic=Elastic(units=IN_WINDOWS, adds=_window_loosened, by_night=_window_loosened),
    ),
    Part(
        kind="rest_days",
        adds=_rest,
        by_night=_rest,
        elastic=Elastic(units=NIGHTS, adds=_rest_loosened, by_night=_rest_loosened),
    ),
    Part(
        kind="games_on",
        adds=_on,
        by_night=_on,
        elastic=Elastic(units=GAMES, adds=_on, by_night=_on),
    ),
    Part(
        kind="double_header", adds=_double, elastic=Elastic(units=PAIRS_OF_GAMES, adds=_double)
    ),
)
