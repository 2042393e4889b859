"""Says what a season needs before its first night, in order, and what of it is done."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal, TypeAlias

from wholeball.files.folder import SeasonFolder
from wholeball.files.problem import free_slots
from wholeball.kernel.days import day_of_season
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.rulebook.sentence import counted
from wholeball.usecases.arrange_pools import has_played

Place: TypeAlias = Literal["pools", "times", "plan", "rosters", "crews", "night"]
"""Where a step is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: how far it is, what is so, what to do, and where; `day` is the night it is of."""

    place: Place
    state: Literal["before", "on", "over"]
    word: str
    says: str
    cure: str
    day: date | None = None
    is_next: bool = False


def first_steps(read: SeasonFolder) -> tuple[Step, ...]:
    """Return the steps to a season's first night, none once a game has been played.

    The first that is not done is marked as the next.
    """
    if has_played(read):
        return ()
    steps = [*_steps(read)]
    at = next((at for at, one in enumerate(steps) if one.state == "before"), len(steps) - 1)
    return tuple(replace(one, is_next=index == at) for index, one in enumerate(steps))


def _steps(read: SeasonFolder) -> Iterator[Step]:
    teams = read.season.league.teams
    pools = len({one.pool for one in teams})
    yield _step(
        "pools",
        bool(teams),
        f"{counted(len(teams), 'team')} in {counted(pools, 'pool')}."
        if teams
        else "No team yet.",
        "See teams and pools" if teams else "Take in the teams",
    )
    places = free_slots(read)
    fields = len({one.field for one in places})
    yield _step(
        "times",
        bool(places),
        f"{counted(len(places), 'place')} for games on {counted(fields, 'field')}."
        if places
        else "No time to play is left by the days off."
        if read.planning.slots
        else "No field and no time to play yet.",
        "See fields and times" if read.planning.slots else "Say where and when",
    )
    listed: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    games = len(listed)
    yield _step(
        "plan",
        bool(games),
        f"{counted(games, 'game')} in the timetable." if games else "No timetable yet.",
        "See the calendar" if games else "Plan it, then publish it",
    )
    if games:
        night = min(one.day for one in listed)
        yield Step(
            place="night",
            state="before",
            word="next",
            says=f"The first night is {day_of_season(night)}.",
            cure="Print its packet",
            day=night,
        )
        ours = {one.game for one in listed if one.day == night}
        posts = len(ours) * len(read.season.rulebook.crew.roles)
        filled = sum(one.game in ours and one.day is None for one in read.crews)
        yield Step(
            place="crews",
            state="on" if filled < posts else "over",
            word="may wait" if filled < posts else "done",
            says=f"{counted(posts - filled, 'post')} of its crews to fill."
            if filled < posts
            else "Its crews are complete.",
            cure="Name the crews",
            day=night,
        )
    without = sum(not read.rosters.get(one.team) for one in teams)
    if teams:
        yield Step(
            place="rosters",
            state="on" if without else "over",
            word="may wait" if without else "done",
            says=f"{counted(without, 'team')} without a roster."
            if without
            else "Every team has a roster.",
            cure="Import rosters",
        )


def _step(place: Place, is_done: bool, says: str, cure: str) -> Step:  # noqa: FBT001 - told apart by its name
    return Step(
        place=place,
        state="over" if is_done else "before",
        word="done" if is_done else "to do",
        says=says,
        cure=cure,
    )
