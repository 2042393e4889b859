"""Makes invented seasons to be planned, of three sizes and any seed.

Sizes, shares and weights are those of a published study's order of magnitude: most teams have a
day they cannot play, nights fill to two thirds up to five sixths.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from random import Random
from typing import Final

from wholeball.kernel.identity import PoolId, SiteId, TeamId
from wholeball.planning.days import weekday
from wholeball.planning.pairings import pairings
from wholeball.planning.problem import Pairing, PlannedTeam, Slot, TimetableProblem
from wholeball.planning.rule import Param, Rule

FIRST_DAY: Final = date(2027, 1, 4)
OPENS: Final = time(18, 0)
MINUTES: Final = 55
SECOND: Final = "18:55"


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How large a season is; the first `longer` pools play one game more."""

    teams: int
    pool: int
    games_each: int
    longer: int
    sites: int
    fields: int
    starts: int
    weekdays: tuple[int, ...]
    weeks: int


SIZES: Final = {
    "S": Size(
        teams=24,
        pool=6,
        games_each=5,
        longer=0,
        sites=1,
        fields=2,
        starts=3,
        weekdays=(0, 1, 3),
        weeks=5,
    ),
    "M": Size(
        teams=96,
        pool=6,
        games_each=5,
        longer=0,
        sites=1,
        fields=4,
        starts=4,
        weekdays=(0, 1, 2, 3),
        weeks=5,
    ),
    "L": Size(
        teams=480,
        pool=8,
        games_each=8,
        longer=20,
        sites=2,
        fields=8,
        starts=5,
        weekdays=(0, 1, 2, 3, 6),
        weeks=6,
    ),
}


def season(size: Size, seed: int = 1) -> TimetableProblem:
    """Return an invented season; the same size and seed give the same one.

    Draws come in this order: absences and dislikes of each team, teams that share a player,
    closed fields.
    """
    draws = Random(seed)  # noqa: S311 - the same season each time
    pools = _pools(size)
    teams = [(team, pool) for pool, members in pools.items() for team in members]
    nights = _nights(size)
    rules = [*_common()]
    for team, _ in teams:
        rules += _of_team(team, nights, draws)
    rules += _shared(teams, draws)
    slots = tuple(_slots(size, nights, draws))
    return TimetableProblem(
        timezone="America/Chicago",
        first_day=FIRST_DAY,
        last_day=FIRST_DAY + timedelta(days=7 * size.weeks - 1),
        teams=tuple(PlannedTeam(team=team, pool=pool) for team, pool in teams),
        pairings=_games(size, pools),
        slots=slots,
        rules=tuple(rules),
    )


def scaled(games: int) -> Size:
    """Return a season like M with about so many games; fields grow with it."""
    pools = max(1, round(games / 15))
    whole, rest = divmod(pools, 4)
    return Size(
        teams=6 * pools,
        pool=6,
        games_each=5,
        longer=0,
        sites=1,
        fields=max(1, whole + (rest > 0)),
        starts=4,
        weekdays=(0, 1, 2, 3),
        weeks=5,
    )


def _pools(size: Size) -> dict[PoolId, tuple[TeamId, ...]]:
    count = size.teams // size.pool
    return {
        PoolId(f"P{pool + 1}"): tuple(
            TeamId(f"T{pool * size.pool + number + 1:03}") for number in range(size.pool)
        )
        for pool in range(count)
    }


def _games(size: Size, pools: dict[PoolId, tuple[TeamId, ...]]) -> tuple[Pairing, ...]:
    names = list(pools)
    longer = {name: pools[name] for name in names[: size.longer]}
    rest = {name: pools[name] for name in names[size.longer :]}
    more = pairings(longer, games_each=size.games_each + 1)
    return (*more, *pairings(rest, games_each=size.games_each, first=len(more) + 1))


def _nights(size: Size) -> list[date]:
    return [
        FIRST_DAY + timedelta(days=7 * week + day)
        for week in range(size.weeks)
        for day in size.weekdays
    ]


def _slots(size: Size, nights: Sequence[date], draws: Random) -> Iterator[Slot]:
    fields = [
        (f"Field {site * size.fields + number + 1}", SiteId(f"Site {site + 1}"))
        for site in range(size.sites)
        for number in range(size.fields)
    ]
    for night in nights:
        closed = draws.randrange(len(fields)) if draws.random() < 0.06 else None
        for index, (field, site) in enumerate(fields):
            if index == closed:
                continue
            for start in range(size.starts):
                at = datetime.combine(night, OPENS) + timedelta(minutes=MINUTES * start)
                yield Slot(field=field, site=site, night=night, at=at.time(), minutes=MINUTES)


def _common() -> Iterator[Rule]:
    yield Rule(
        rule="one game a night", kind="games_a_night", strength="must", params={"most": 1}
    )
    yield Rule(rule="rest", kind="rest_days", strength="must", params={"days": 1})
    yield Rule(
        rule="two games a week", kind="games_a_week", strength="must", params={"most": 2}
    )
    yield Rule(
        rule="late", kind="even_starts", strength="wish", cost=5, params={"which": "late"}
    )
    yield Rule(
        rule="early", kind="even_starts", strength="wish", cost=2, params={"which": "early"}
    )
    yield Rule(rule="idle week", kind="idle_week", strength="wish", cost=4)
    yield Rule(rule="open start", kind="open_start", strength="wish", cost=6)


def _of_team(team: TeamId, nights: Sequence[date], draws: Random) -> Iterator[Rule]:
    days = sorted({weekday(night) for night in nights})
    if draws.random() < 0.35:
        yield _absent(team, "weekday", {"weekdays": (draws.choice(days),)})
    away = tuple(f"{night}" for night in nights if draws.random() < 0.05)
    if away:
        yield _absent(team, "nights", {"nights": away})
    if draws.random() < 0.15:
        yield _absent(team, "first start", {"weekdays": (draws.choice(days),), "until": SECOND})
    disliked = draws.sample(days, draws.choice((0, 1, 1, 2)))
    if disliked:
        yield Rule(
            rule=f"{team} dislikes",
            kind="absent",
            strength="wish",
            cost=3,
            teams=(team,),
            params={"weekdays": tuple(disliked)},
        )


def _absent(team: TeamId, what: str, params: dict[str, Param]) -> Rule:
    return Rule(
        rule=f"{team} absent: {what}",
        kind="absent",
        strength="must",
        teams=(team,),
        params=params,
    )


def _shared(teams: Sequence[tuple[TeamId, PoolId]], draws: Random) -> Iterator[Rule]:
    for team, pool in teams:
        if draws.random() < 0.25:
            other = draws.choice([name for name, theirs in teams if theirs != pool])
            yield Rule(
                rule=f"{team} and {other} share a player",
                kind="never_at_once",
                strength="must",
                teams=(team, other),
            )
