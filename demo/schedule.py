"""Deals teams into pools, and says where and when may be played, and by which rules."""

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Final, NamedTuple

from demo.invent import Invented, SignedUp
from demo.world import Block, Size

LETTERS: Final = "ABCDEFGH"
OPENS: Final = time(18, 30)
CLOSES: Final = time(22, 0)
LEAGUE_MINUTES: Final = 60
PLAY_OFF_MINUTES: Final = 100
LATE_COST: Final = 5
FIELD_COST: Final = 3
Pools = dict[str, list[str]]


class Away(NamedTuple):
    """When a team cannot play, or, where that has a cost, would rather not."""

    team: str
    day: date
    since: time
    until: time
    cost: int = 0
    why: str = ""


class Closed(NamedTuple):
    """A night on which a field cannot be used."""

    field: str
    day: date
    why: str


class PlayOff(NamedTuple):
    """A game of the play-offs before anybody knows its sides; `level` is its night, from 0."""

    game: str
    level: int
    home: str
    away: str


def with_place(invented: Invented, block: Block) -> tuple[list[SignedUp], list[SignedUp]]:
    """Return a block's teams with a place and those that wait, each in the order they came."""
    asked = [*invented.signed_up, invented.formed]
    mine = sorted((one for one in asked if one.block == block), key=lambda one: one.at)
    return mine[: block.places], mine[block.places :]


def pools_of(invented: Invented, size: Size) -> Pools:
    """Deal each block's teams out to its pools, there and back; pools are named for the block."""
    found: Pools = {}
    for block in size.blocks:
        teams, _ = with_place(invented, block)
        names = [block.block]
        if size.pools > 1:
            names = [f"{block.block} {LETTERS[index]}" for index in range(size.pools)]
        turn = [*range(size.pools), *reversed(range(size.pools))]
        for name in names:
            found[name] = []
        for index, one in enumerate(teams):
            found[names[turn[index % len(turn)]]].append(one.team.name)
    return found


def starts(minutes: int) -> list[time]:
    """Return when games of so many minutes can start one after another of an evening."""
    found = []
    begin = datetime.combine(date.min, OPENS)
    while (end := begin + timedelta(minutes=minutes)).time() <= CLOSES:
        found.append(begin.time())
        begin = end
    return found


def closed(size: Size) -> Closed:
    """Return the field that is closed on one night of the first block."""
    night = size.nights(size.blocks[0])[1]
    return Closed(size.fields[-1][0], night, "The grass is mown.")


def away(pools: Pools, size: Size) -> list[Away]:
    """Return who cannot play when: one comes late, one leaves early, one would rather not."""
    first, *_, last = pools.values()
    early, late = size.nights(size.blocks[0]), size.nights(size.blocks[-1])
    return [
        Away(first[0], early[0], OPENS, time(19, 30), why="A lecture until half past seven."),
        Away(last[1], late[0], time(20, 0), CLOSES, why="The last bus."),
        Away(last[0], late[-2], OPENS, CLOSES, cost=2, why="An examination."),
    ]


def play_offs(size: Size) -> list[PlayOff]:
    """Return the play-offs with open sides: quarter-finals if eight go on, semi-finals, finals."""
    eight = size.going_on == 8
    quarters = [("Q1", 1, 8), ("Q2", 4, 5), ("Q3", 2, 7), ("Q4", 3, 6)] if eight else []
    semis = ["winner of Q1", "winner of Q2", "winner of Q3", "winner of Q4"]
    one, two, three, four = semis if eight else ["seed 1", "seed 4", "seed 2", "seed 3"]
    return [
        *(PlayOff(name, 0, f"seed {high}", f"seed {low}") for name, high, low in quarters),
        PlayOff("S1", 1, one, two),
        PlayOff("S2", 1, three, four),
        PlayOff("T1", 2, "loser of S1", "loser of S2"),
        PlayOff("F1", 2, "winner of S1", "winner of S2"),
    ]


def shares_fields(size: Size) -> bool:
    """Tell whether it is wished that teams play on every field about as often."""
    return len(size.fields) > 2


def places(size: Size) -> Iterator[tuple[date, time, str]]:
    """Yield every place where the league may be played, nights kept for rain among them."""
    shut = closed(size)
    for block in size.blocks:
        for night in size.nights(block):
            for field, _ in size.fields:
                if (field, night) != (shut.field, shut.day):
                    yield from ((night, start, field) for start in starts(LEAGUE_MINUTES))
