"""Has the kinds about the season as a whole: idle weeks, open nights, who is listed first."""

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Final

from pydantic import Field

from wholeball.kernel.identity import TeamId
from wholeball.planning.days import clock, day
from wholeball.planning.kind import AnyKind, Found, Kind, Params, who
from wholeball.planning.placed import Placed
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted


class Nothing(Params):
    """A kind with nothing more to say."""


class Difference(Params):
    """By how much two counts may differ."""

    most: int = Field(ge=0, le=20)


def idle_weeks(team: TeamId, rule: Rule, placed: Placed) -> tuple[int, ...]:
    """Return the weeks, from 0, in which a team has no game."""
    busy = {placed.problem.week_of(one.start.night) for one in placed.of(team, rule)}
    return tuple(week for week in placed.weeks if week not in busy)


def _idle(rule: Rule, params: Nothing, placed: Placed) -> Iterator[Found]:
    """Count the weeks of the league in which a team could have a game more, and has none.

    The weeks of the league are those before the one in which the play-offs begin. Who has fewer
    games than there are of them cannot help being idle in some.
    """
    del params
    weeks = _league_weeks(placed)
    games = _league_games(placed.problem, rule)
    for team in placed.concerned(rule):
        here = [one for one in placed.of(team, rule) if one.pairing.pool is not None]
        busy = {placed.problem.week_of(one.start.night) for one in here}.intersection(weeks)
        could = min(games[team], len(weeks))
        if could == len(weeks):
            for week in weeks:
                if week not in busy:
                    says = f"{team} has no game in week {week + 1}."
                    yield Found(about=team, games=(), says=says)
        elif len(busy) < could:
            says = f"{team} has games in {counted(len(busy), 'week')}, and could in {could}."
            yield Found(about=team, games=(), times=could - len(busy), says=says)


def _league_weeks(placed: Placed) -> tuple[int, ...]:
    """Return the weeks before the one in which the first game of no pool is played."""
    weeks = [
        placed.problem.week_of(one.start.night)
        for one in placed.games
        if one.pairing.pool is None
    ]
    begins = min(weeks, default=None)
    return tuple(week for week in placed.weeks if begins is None or week < begins)


def _league_games(problem: TimetableProblem, rule: Rule) -> Mapping[TeamId, int]:
    """Count the games of pools that each team has, of those that a rule looks at."""
    return Counter(
        TeamId(side)
        for one in problem.pairings
        if one.pool is not None and rule.looks_at(is_play_off=False)
        for side in one.sides
        if isinstance(side, str)
    )


def _byes(rule: Rule, params: Difference, placed: Placed) -> Iterator[Found]:
    """Hold each team's idle weeks to the fewest that one of them has."""
    idle = {team: len(idle_weeks(team, rule, placed)) for team in placed.concerned(rule)}
    least = min(idle.values(), default=0)
    for team, weeks in idle.items():
        if weeks - least > params.most:
            yield Found(
                about=team,
                games=(),
                times=weeks - least - params.most,
                says=f"{team} is idle in {counted(weeks, 'week')}, another team in {least}.",
            )


def _nights(rule: Rule, params: Nothing, placed: Placed) -> Iterator[Found]:
    del rule, params
    used = {one.start.night for one in placed.games}
    for night in placed.nights:
        if night in used:
            yield Found(about=f"{night}", games=(), says=f"{day(night)} is opened.")


def _starts(rule: Rule, params: Nothing, placed: Placed) -> Iterator[Found]:
    del rule, params
    used = {one.start for one in placed.games}
    for start in placed.problem.starts:
        if start in used:
            when = f"{day(start.night)}, {clock(start.at)}"
            yield Found(
                about=f"{start.night} {clock(start.at)}", games=(), says=f"{when} is opened."
            )


def _listed(rule: Rule, params: Difference, placed: Placed) -> Iterator[Found]:
    for team in placed.concerned(rule):
        games = placed.of(team, rule)
        first = sum(one.pairing.home == team for one in games)
        apart = abs(2 * first - len(games))
        if apart > params.most:
            yield Found(
                about=team,
                games=(),
                times=apart - params.most,
                says=f"{team} is listed first {counted(first, 'time')} of {len(games)}.",
            )


SEASON: Final[tuple[AnyKind, ...]] = (
    Kind(
        name="idle_week",
        params=Nothing,
        strengths=("wish",),
        says=lambda rule, params: f"{who(rule, 'plays', 'play')} every week.",  # noqa: ARG005
        breaks=_idle,
    ),
    Kind(
        name="even_byes",
        params=Difference,
        strengths=("must", "wish"),
        says=lambda rule, params: (
            f"{who(rule, 'is', 'are')} idle as often as any other, "
            f"{counted(params.most, 'week')} more at most."
        ),
        breaks=_byes,
    ),
    Kind(
        name="open_night",
        params=Nothing,
        strengths=("wish",),
        says=lambda rule, params: "As few nights as can be are opened.",  # noqa: ARG005
        breaks=_nights,
        teams="none",
        stages=False,
    ),
    Kind(
        name="open_start",
        params=Nothing,
        strengths=("wish",),
        says=lambda rule, params: "As few starts as can be are opened.",  # noqa: ARG005
        breaks=_starts,
        teams="none",
        stages=False,
    ),
    Kind(
        name="listed_first",
        params=Difference,
        strengths=("wish",),
        says=lambda rule, params: (
            f"{who(rule, 'is', 'are')} listed first as often as second, {params.most} apart at "
            "most."
        ),
        breaks=_listed,
    ),
)
