"""Has a tiny timetable question that tests turn as they need it."""

from collections.abc import Iterable, Mapping
from datetime import date, time, timedelta
from typing import Final

from wholeball.kernel.identity import GameId, PoolId, SiteId, TeamId
from wholeball.league.fixture import OpenSide
from wholeball.planning.problem import (
    Pairing,
    Placement,
    PlannedTeam,
    Slot,
    Start,
    TimetableProblem,
)
from wholeball.planning.rule import Games, Param, Rule

MONDAY: Final = date(2027, 1, 4)
EARLY, MIDDLE, LATE = time(18), time(19), time(20)
POOL: Final = PoolId("A")


def night(days: int) -> date:
    """Return the night so many days after the first Monday."""
    return MONDAY + timedelta(days=days)


def slots(
    nights: Iterable[int], starts: Iterable[time], fields: Iterable[str] = ("F1", "F2")
) -> tuple[Slot, ...]:
    """Return a slot of an hour for each night, start and field."""
    return tuple(
        Slot(field=field, site=SiteId("Meadow"), night=night(day), at=at, minutes=60)
        for day in nights
        for at in starts
        for field in fields
    )


def pairing(
    game: str,
    home: str | OpenSide,
    away: str | OpenSide,
    round_: int = 1,
    pool: PoolId | None = POOL,
) -> Pairing:
    """Return a game of the pool, or of the bracket where the pool is None."""
    return Pairing(
        game=GameId(game),
        home=TeamId(home) if isinstance(home, str) else home,
        away=TeamId(away) if isinstance(away, str) else away,
        round=round_,
        pool=pool,
    )


def question(
    games: Iterable[Pairing], usable: Iterable[Slot], *rules: Rule, weeks: int = 2
) -> TimetableProblem:
    """Return a question about the teams that these games name."""
    played = tuple(games)
    named = (side for one in played for side in one.sides if isinstance(side, str))
    return TimetableProblem(
        timezone="America/Chicago",
        first_day=MONDAY,
        last_day=MONDAY + timedelta(days=7 * weeks - 1),
        teams=tuple(PlannedTeam(team=TeamId(name), pool=POOL) for name in sorted(set(named))),
        pairings=played,
        slots=tuple(usable),
        rules=rules,
    )


def rule(
    kind: str,
    *teams: str,
    cost: int = 0,
    games: Games = "all",
    **params: Param,
) -> Rule:
    """Return a must, or a wish where it has a cost; a trailing _ of a parameter is dropped."""
    return Rule(
        rule=kind,
        kind=kind,
        strength="wish" if cost else "must",
        cost=cost,
        teams=tuple(map(TeamId, teams)),
        games=games,
        params={name.removesuffix("_"): value for name, value in params.items()},
    )


def at(day: int, start: time, field: str = "F1") -> tuple[Start, str]:
    """Return a place: the night by its days from the first Monday, the start and the field."""
    return Start(night(day), start), field


def plan(places: Mapping[str, tuple[Start, str]]) -> tuple[Placement, ...]:
    """Return the placements of games by their names."""
    return tuple(
        Placement(game=GameId(game), start=start, field=field)
        for game, (start, field) in places.items()
    )
