"""Deals teams into pools and lists who meets whom when, in plain ways of its own."""

from datetime import date, time, timedelta
from typing import Final

from demo.invent import Invented, SignedUp
from demo.world import Block, Listed, Size

STARTS: Final = (time(19, 0), time(20, 10))
LETTERS: Final = "ABCDEFGH"
_TUESDAY, _THURSDAY = 0, 2
Pools = dict[str, list[str]]


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


def berger(teams: list[str]) -> list[list[tuple[str, str]]]:
    """Return a round robin: the last team stays, the others go round it (Berger's tables)."""
    *ring, last = teams
    rounds = []
    for number in range(len(ring)):
        turned = ring[number:] + ring[:number]
        first = (turned[0], last) if number % 2 == 0 else (last, turned[0])
        rest = [
            (turned[index], turned[-index]) if index % 2 else (turned[-index], turned[index])
            for index in range(1, len(teams) // 2)
        ]
        rounds.append([first, *rest])
    return rounds


def league_games(pools: Pools, size: Size, officials: list[str]) -> list[Listed]:
    """Return the league's games, night by night; A1-2 is pool A, round 1, second game."""
    games: list[Listed] = []
    letters = dict(zip(pools, LETTERS, strict=False))
    for number in range(1, size.rounds + 1):
        for night, block in enumerate(size.blocks):
            day = size.first_night + timedelta(days=7 * (number - 1) + 2 * night)
            mine = [pool for pool in pools if pool.startswith(block.block)]
            tonight = [
                (pool, f"{letters[pool]}{number}-{slot}", sides)
                for pool in mine
                for slot, sides in enumerate(berger(pools[pool])[number - 1], start=1)
            ]
            for index, (pool, name, (home, away)) in enumerate(tonight):
                start, field = divmod(index, len(size.fields))
                games.append(
                    Listed(
                        game=name,
                        round=number,
                        day=day,
                        start=STARTS[start],
                        field=size.fields[field][0],
                        stage="league",
                        home=home,
                        away=away,
                        pool=pool,
                        crew=_crew(officials, len(games)),
                    )
                )
    return games


def _crew(officials: list[str], game: int) -> tuple[str, str]:
    """Return the next two officials of the list, over and over."""
    first = 2 * game % len(officials)
    return officials[first], officials[first + 1]


def play_off_games(size: Size, officials: list[str]) -> list[Listed]:
    """Return the play-offs with open sides: quarter-finals if eight go on, semi-finals, finals."""
    first = size.first_night + timedelta(days=7 * size.rounds)
    eight = size.going_on == 8
    quarters = [("Q1", 1, 8), ("Q2", 4, 5), ("Q3", 2, 7), ("Q4", 3, 6)] if eight else []
    rows = [
        *((name, 0, (f"seed {high}", f"seed {low}")) for name, high, low in quarters),
        ("S1", 1, ("winner of Q1", "winner of Q2") if eight else ("seed 1", "seed 4")),
        ("S2", 1, ("winner of Q3", "winner of Q4") if eight else ("seed 2", "seed 3")),
        ("T1", 2, ("loser of S1", "loser of S2")),
        ("F1", 2, ("winner of S1", "winner of S2")),
    ]
    nights = [first, first + timedelta(days=2), first + timedelta(days=7)]
    games: list[Listed] = []
    for index, (name, level, opens) in enumerate(rows):
        on_night = [row for row in rows[:index] if row[1] == level]
        start, field = divmod(len(on_night), len(size.fields))
        games.append(
            Listed(
                game=name,
                round=size.rounds + 1 + level,
                day=nights[level],
                start=STARTS[start],
                field=size.fields[field][0],
                stage="play_off",
                opens=opens,
                crew=_crew(officials, index),
            )
        )
    return games


def last_day(size: Size) -> date:
    """Return the season's last day."""
    return size.first_night + timedelta(days=7 * size.rounds + 10)
