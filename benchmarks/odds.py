"""Measures 10,000 simulated ends of a season against as many Poisson draws, in one process.

The season: 24 teams in four pools of six, five rounds of which the last one, or the last
three, are left. A simulated end is the score of every game left and the order of every pool by
the rulebook's criteria, lots included; the subject makes them from fitted strengths on, tables of scores and all.
The reference draws the goals of both sides of the same games, (10,000, games) twice, with numpy's
Poisson generator, and counts nothing. The limit is half of it where three rounds are left. Ranking
costs the same however few games are left, so with one round left the limit is our own; so it is
with mini-tables, and with everything that the odds want besides (strengths fitted, who goes on,
seeds with the teams of one pool kept apart, who wins the bracket).

Tried and left, each slower: sorting one packed number a team and season (the sort alone takes as
long as all comparisons by two), blocks of 256 to 2,048 seasons (more calls), whole arrays for
each step (large arrays are got anew from the system each time, which takes longer than the work).
"""

from collections.abc import Callable
from datetime import date, time
from random import Random
from statistics import median
from typing import Final

import numpy as np

from benchmarks.in_turn import Measured, in_turn
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.league import League, Team
from wholeball.rulebook.load import load
from wholeball.season.odds import Simulated, odds
from wholeball.season.record import pools_stand
from wholeball.season.result import Result
from wholeball.season.season import Season
from wholeball.season.shares import SEASONS, Drawing
from wholeball.season.simulated import rank_ends
from wholeball.season.to_come import ToCome, to_come

REPETITIONS: Final = 21
POOLS: Final = 4
DAY: Final = date(2027, 4, 6)
ROUNDS: Final = (
    ((0, 5), (1, 4), (2, 3)),
    ((5, 3), (4, 2), (0, 1)),
    ((1, 5), (2, 0), (3, 4)),
    ((5, 4), (0, 3), (1, 2)),
    ((2, 5), (3, 1), (4, 0)),
)
BOOK: Final = """
schema = 1
base = "laws-2025-26"
name = "Benchmark"
[standings]
criteria = {criteria}
last_resort = "lots"
[play_offs]
qualify = "{qualify}"
places = {places}
seeded_by = "{seeded_by}"
same_pool = "kept_apart_in_first_round"
"""
MINI: Final = (
    '["points", {among_level = ["h2h_points", "h2h_difference", "h2h_goals"], again = true}, '
    '"difference", "goals"]'
)


def measure() -> list[Measured]:
    """Return for each operation its name, its reference, the ratio, and the most allowed."""
    overall = BOOK.format(
        criteria='["points", "difference", "goals"]',
        qualify="overall",
        places=8,
        seeded_by="record",
    )
    of_pools = BOOK.format(
        criteria=MINI, qualify="per_pool", places=2, seeded_by="pool_place_then_record"
    )
    return [
        _ends("one round left", overall, rounds_left=1, most=1.0),
        _ends("three rounds left", overall, rounds_left=3, most=0.5),
        _ends("mini-tables, three rounds left", of_pools, rounds_left=3, most=3.0),
        _odds("the best eight of all, three rounds left", overall, rounds_left=3, most=40.0),
        _odds(
            "two of each pool by mini-tables, three rounds left",
            of_pools,
            rounds_left=3,
            most=12.0,
        ),
    ]


def _ends(name: str, book: str, *, rounds_left: int, most: float) -> Measured:
    """Measure the ends alone: scores and the order of every pool."""
    coming = _season(book, rounds_left)
    making = Simulated(coming, Drawing(seed=1), pools_stand(coming.season), (), {})
    criteria = coming.season.rulebook.standings.criteria

    def subject() -> object:
        scores, lots = np.random.default_rng(1).spawn(2)
        return rank_ends(making.make_ends(scores, {}), criteria, making.pool_tiers(), lots)

    return _row(f"season ends: {name}", coming, subject, most=most)


def _odds(name: str, book: str, *, rounds_left: int, most: float) -> Measured:
    """Measure everything that the odds want."""
    coming = _season(book, rounds_left)
    return _row(f"odds: {name}", coming, lambda: odds(coming, Drawing(seed=1)), most=most)


def _row(name: str, coming: ToCome, work: Callable[[], object], *, most: float) -> Measured:
    games = len(coming.left)
    chance = np.random.default_rng(1)
    referred, worked = in_turn(
        lambda: (
            chance.poisson(2.0, (SEASONS, games)),
            chance.poisson(2.0, (SEASONS, games)),
        ),
        work,
        times=REPETITIONS,
    )
    reference, subject = median(referred), median(worked)
    told = f"{name}, {SEASONS:,} ends, {games} games, {subject * 1000:.1f} ms"
    return told, f"Poisson draws, {reference * 1000:.1f} ms", subject / reference, most


def _season(book: str, rounds_left: int) -> ToCome:
    chance = Random(3)  # noqa: S311  the same games each time, no secret
    teams = [TeamId(f"team {number:02}") for number in range(6 * POOLS)]
    fixtures = [
        Fixture(
            game=GameId(f"{pool}-{number}-{home}"),
            round=number,
            day=DAY,
            start=time(19),
            field="Field 1",
            home=teams[6 * pool + home],
            away=teams[6 * pool + away],
        )
        for pool in range(POOLS)
        for number, pairs in enumerate(ROUNDS, start=1)
        for home, away in pairs
    ]
    results = [
        Result(
            game=one.game,
            round=one.round,
            home=one.home,
            away=one.away,
            home_goals=chance.choice((0, 1, 1, 2, 2, 3, 4)),
            away_goals=chance.choice((0, 0, 1, 1, 2, 3)),
        )
        for one in fixtures
        if one.round <= len(ROUNDS) - rounds_left
    ]
    league = League(
        name="Benchmark",
        timezone="UTC",
        first_day=DAY,
        last_day=DAY,
        teams=tuple(
            Team(team=team, pool=PoolId("ABCD"[number // 6]))
            for number, team in enumerate(teams)
        ),
    )
    rulebook = load(book.encode(), file="benchmark.toml").rulebook
    season = Season(league=league, rulebook=rulebook, results=tuple(results))
    return to_come(season, fixtures)
