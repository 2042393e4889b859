"""Reads timetable.csv in a way of its own, and holds it to what was asked of it."""

import csv
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, time
from itertools import combinations
from pathlib import Path
from typing import Final

from demo.schedule import (
    FIELD_COST,
    LATE_COST,
    LEAGUE_MINUTES,
    PLAY_OFF_MINUTES,
    Away,
    Pools,
    away,
    places,
    play_offs,
    shares_fields,
    starts,
)
from demo.world import Listed, Size

FILE: Final = "timetable.csv"
Place = tuple[date, time, str]
Told = tuple[str, object, object]
"""A fact of a timetable: what it is about, what it should be, and what it is."""


def read_timetable(path: Path, pools: Pools) -> list[Listed]:
    """Return the games of a timetable in the order of their kick-offs."""
    pool_of = {team: pool for pool, teams in pools.items() for team in teams}
    with path.open(encoding="utf-8", newline="") as file:
        found = [_listed(row, pool_of) for row in csv.DictReader(file)]
    return sorted(found, key=lambda one: (*place(one)[:2], one.field))


def _listed(row: dict[str, str], pool_of: dict[str, str]) -> Listed:
    sides = row["home"], row["away"]
    is_open = row["stage"] == "play_off"
    return Listed(
        game=row["game"],
        round=int(row["round"]),
        day=date.fromisoformat(row["date"]),
        start=time.fromisoformat(row["start"]),
        field=row["field"],
        stage="play_off" if is_open else "league",
        home="" if is_open else sides[0],
        away="" if is_open else sides[1],
        opens=sides if is_open else ("", ""),
        pool="" if is_open else pool_of[sides[0]],
    )


def place(one: Listed) -> Place:
    """Return when and where a game is to be played."""
    return one.day, one.start, one.field


def facts(
    games: Sequence[Listed], pools: Pools, size: Size, lost: date | None
) -> Iterator[Told]:
    """Yield what a timetable must keep, and whether it does; nothing is on the `lost` night."""
    league = [one for one in games if one.stage == "league"]
    for pool, teams in pools.items():
        pairs = sorted(sorted(one) for one in combinations(teams, 2))
        came = sorted(sorted((one.home, one.away)) for one in league if one.pool == pool)
        yield f"pairs of {pool}", pairs, came
        for team in teams:
            nights = [one.day for one in league if team in one.sides()]
            yield f"nights of {team}", (size.rounds, 1), (len(nights), _most(nights))
    yield "games at one place", 1, _most([place(one) for one in games])
    may = {one for one in places(size) if one[0] != lost}
    block_nights = {block.block: size.nights(block) for block in size.blocks}
    for one in league:
        block = next(name for name in block_nights if one.pool.startswith(name))
        is_right = place(one) in may and one.day in block_nights[block]
        yield f"game {one.game} has a place of its block", True, is_right
    for gone in away(pools, size):
        if not gone.cost:
            yield f"{gone.team} is spared on {gone.day}", 0, _met(league, gone)
    yield from _play_offs(games, size)


def _most(values: Iterable[object]) -> int:
    return max(Counter(values).values())


def _met(league: Iterable[Listed], gone: Away) -> int:
    """Return in how many games a team is when it is away; they take an hour each."""
    return sum(
        gone.team in one.sides()
        and one.day == gone.day
        and one.start < gone.until
        and _minute(one.start) + LEAGUE_MINUTES > _minute(gone.since)
        for one in league
    )


def _minute(at: time) -> int:
    return 60 * at.hour + at.minute


def _play_offs(games: Sequence[Listed], size: Size) -> Iterator[Told]:
    """Yield of each play-off game its sides, its night, and that it starts at one of its times."""
    by_name = {one.game: one for one in games if one.stage == "play_off"}
    asked = play_offs(size)
    yield "the play-offs", sorted(one.game for one in asked), sorted(by_name)
    fields = [field for field, _ in size.fields]
    for one in asked:
        listed = by_name[one.game]
        expected = ((one.home, one.away), size.play_off_nights[one.level], True)
        is_right = listed.start in starts(PLAY_OFF_MINUTES) and listed.field in fields
        came = (listed.sides(), listed.day, is_right)
        yield f"game {one.game} before its sides are known", expected, came


def cost(games: Iterable[Listed], pools: Pools, size: Size) -> int:
    """Return what a timetable costs by the wishes: late games and fields beyond a fair share."""
    league = [one for one in games if one.stage == "league"]
    late = starts(LEAGUE_MINUTES)[-1]
    late_share = -(-size.rounds // len(starts(LEAGUE_MINUTES)))
    field_share = -(-size.rounds // len(size.fields))
    total = sum(gone.cost * _met(league, gone) for gone in away(pools, size))
    for team in (team for teams in pools.values() for team in teams):
        mine = [one for one in league if team in one.sides()]
        total += LATE_COST * max(0, sum(one.start == late for one in mine) - late_share)
        on = Counter(one.field for one in mine if shares_fields(size))
        total += FIELD_COST * sum(max(0, times - field_share) for times in on.values())
    return total


def moved(before: Iterable[Listed], after: Iterable[Listed]) -> dict[str, tuple[Place, Place]]:
    """Return where the games that changed their place were and are."""
    now = {one.game: place(one) for one in after}
    return {
        one.game: (place(one), now[one.game]) for one in before if now[one.game] != place(one)
    }
