"""Has the kinds that limit how much a team plays: a night, a week, a window, in a row."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from itertools import pairwise
from typing import Final, Literal

from pydantic import Field

from wholeball.planning.days import day
from wholeball.planning.kind import AnyKind, Found, Kind, Night, Params, games_of, who
from wholeball.planning.placed import Game, Placed
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted, listed


class Most(Params):
    """The most games allowed."""

    most: int = Field(ge=0, le=99)


class Window(Most):
    """The most games within so many days on end."""

    days: int = Field(ge=2, le=366)


class Rest(Params):
    """How many free days lie between two games at least."""

    days: int = Field(ge=1, le=60)


class On(Most):
    """The most games on some nights, of those where a team is listed on one side or on any."""

    nights: tuple[Night, ...] = Field(min_length=1, max_length=400)
    side: Literal["any", "first", "second"] = "any"


class DoubleHeader(Params):
    """How many starts may lie between two games of a team on one night."""

    starts_between: int = Field(default=0, ge=0, le=9)


def _night(rule: Rule, params: Most, placed: Placed) -> Iterator[Found]:
    for team, played in placed.together(rule):
        for night, games in _by_night(played).items():
            yield from _above(team, f"on {day(night)}", games, params.most)


def _week(rule: Rule, params: Most, placed: Placed) -> Iterator[Found]:
    for team, played in placed.together(rule):
        weeks: dict[int, list[Game]] = defaultdict(list)
        for one in played:
            weeks[placed.problem.week_of(one.start.night)].append(one)
        for week, games in weeks.items():
            yield from _above(team, f"in week {week + 1}", games, params.most)


def _window(rule: Rule, params: Window, placed: Placed) -> Iterator[Found]:
    """Look at every window of days that lies within the season."""
    for team, games in placed.together(rule):
        for first in _windows(placed, games, params.days):
            last = first + timedelta(days=params.days - 1)
            inside = [one for one in games if first <= one.start.night <= last]
            where = f"from {day(first)} to {day(last)}"
            yield from _above(team, where, inside, params.most)


def _windows(placed: Placed, games: Iterable[Game], days: int) -> list[date]:
    """Return the first days of all windows that hold a game, none reaching out of the season."""
    problem = placed.problem
    last = problem.last_day - timedelta(days=days - 1)
    firsts = {one.start.night - timedelta(days=back) for one in games for back in range(days)}
    return sorted(first for first in firsts if problem.first_day <= first <= last)


def _rest(rule: Rule, params: Rest, placed: Placed) -> Iterator[Found]:
    for team, games in placed.together(rule):
        for index, one in enumerate(games):
            for other in games[index + 1 :]:
                between = (other.start.night - one.start.night).days - 1
                if between >= params.days:
                    break
                if one.start.night != other.start.night:
                    yield Found(
                        about=team,
                        games=(one.game, other.game),
                        says=f"{team} plays games {one.game} and {other.game} with "
                        f"{counted(between, 'free day')} between.",
                    )


def _on(rule: Rule, params: On, placed: Placed) -> Iterator[Found]:
    nights = frozenset(params.nights)
    for team, played in placed.together(rule):
        games = [
            one
            for one in played
            if one.start.night in nights and _listed(one, team, params.side)
        ]
        yield from _above(team, _named(params.nights), games, params.most)


def _listed(one: Game, team: str, side: str) -> bool:
    sides = {"any": one.pairing.sides, "first": (one.pairing.home,)}
    return team in sides.get(side, (one.pairing.away,))


def _double(rule: Rule, params: DoubleHeader, placed: Placed) -> Iterator[Found]:
    order = placed.order
    for team, played in placed.together(rule):
        there = [one for one in played if one.start in order]
        for games in _by_night(there).values():
            for one, other in pairwise(games):
                between = order[other.start] - order[one.start] - 1
                if between > params.starts_between:
                    yield Found(
                        about=team,
                        games=(one.game, other.game),
                        says=f"{team} waits {counted(between, 'start')} between {one.game} and "
                        f"{other.game}.",
                    )


def _above(team: str, when: str, games: list[Game], most: int) -> Iterator[Found]:
    if len(games) > most:
        yield Found(
            about=team,
            games=tuple(one.game for one in games),
            says=f"{team} has {counted(len(games), 'game')} {when}; {most} at most.",
            times=len(games) - most,
        )


def _by_night(games: Iterable[Game]) -> dict[date, list[Game]]:
    nights: dict[date, list[Game]] = defaultdict(list)
    for one in games:
        nights[one.start.night].append(one)
    return nights


def _named(nights: tuple[date, ...]) -> str:
    return f"on {day(nights[0])}" + (
        f" and {counted(len(nights) - 1, 'other night')}" if len(nights) > 1 else ""
    )


def _double_says(rule: Rule, params: DoubleHeader) -> str:
    whom = listed(rule.teams, last="or") if rule.teams else "a team"
    if params.starts_between == 0:
        return f"Two games of {whom} on one night follow one another at once."
    starts = counted(params.starts_between, "start")
    return f"Two games of {whom} on one night have {starts} between them at most."


def _on_says(rule: Rule, params: On) -> str:
    side = "" if params.side == "any" else f" as the side listed {params.side}"
    when = _named(params.nights)
    if params.most == 0:
        return f"{who(rule, 'plays', 'play')} no game{side} {when}."
    return f"{who(rule, 'plays', 'play')} {games_of(rule, params.most)}{side} at most {when}."


LIMITS: Final[tuple[AnyKind, ...]] = (
    Kind(
        name="games_a_night",
        params=Most,
        strengths=("must", "wish"),
        says=lambda rule, params: (
            f"{who(rule, 'plays', 'play')} {games_of(rule, params.most)} a night at most."
        ),
        breaks=_night,
    ),
    Kind(
        name="games_a_week",
        params=Most,
        strengths=("must", "wish"),
        says=lambda rule, params: (
            f"{who(rule, 'plays', 'play')} {games_of(rule, params.most)} a week at most."
        ),
        breaks=_week,
    ),
    Kind(
        name="games_in_days",
        params=Window,
        strengths=("must", "wish"),
        says=lambda rule, params: (
            f"{who(rule, 'plays', 'play')} {games_of(rule, params.most)} at most within any "
            f"{counted(params.days, 'day')}."
        ),
        breaks=_window,
    ),
    Kind(
        name="rest_days",
        params=Rest,
        strengths=("must", "wish"),
        says=lambda rule, params: (
            f"{who(rule, 'has', 'have')} {counted(params.days, 'free day')} or more between "
            "games of two nights."
        ),
        breaks=_rest,
    ),
    Kind(
        name="games_on",
        params=On,
        strengths=("must", "wish"),
        says=_on_says,
        breaks=_on,
    ),
    Kind(
        name="double_header",
        params=DoubleHeader,
        strengths=("must", "wish"),
        says=_double_says,
        breaks=_double,
    ),
)
