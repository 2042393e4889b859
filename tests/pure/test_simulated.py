"""Thousands of simulated seasons are ranked as the standings rank each of them."""

from itertools import combinations
from random import Random

import numpy as np
import pytest

from wholeball.kernel.identity import GameId, TeamId
from wholeball.rulebook.criteria import AmongLevel, CappedDifference, Criterion
from wholeball.season.count import Deduction, Points, games
from wholeball.season.result import Result
from wholeball.season.scores import AWAY, HOME, chances, draw_scores
from wholeball.season.simulated import rank_ends
from wholeball.season.simulated_figures import Ends, not_simulated
from wholeball.season.standings import Regulation, standings
from wholeball.season.tally import OutsideFigures

TEAMS = tuple(TeamId(name) for name in "ABCDEF")
INDEX = {team: number for number, team in enumerate(TEAMS)}
SEASONS = 60
ORDERS: dict[str, tuple[Criterion, ...]] = {
    "difference": ("points", "difference", "goals"),
    "mini-tables again": (
        "points",
        AmongLevel(among_level=("h2h_points", "h2h_difference", "h2h_goals"), again=True),
        "difference",
        "goals",
    ),
    "mini-tables once": (
        "points",
        AmongLevel(among_level=("h2h_points", "h2h_wins"), again=False),
        "wins",
    ),
    "capped": ("points", CappedDifference(capped_difference=2), "goals", "wins", "away_goals"),
    "points by the game": ("points_per_game", "difference", "goals"),
    "goals and then by the game": ("goals", "points_per_game", "wins"),
    "wins first": ("wins", AmongLevel(among_level=("h2h_goals",), again=True), "points"),
}


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("shape", ["all meet", "some never meet", "two tiers"])
def test_every_season_is_ranked_as_the_standings_rank_it(order: str, shape: str) -> None:
    chance = Random(f"{order} {shape}")
    pairs = list(combinations(TEAMS, 2))
    chance.shuffle(pairs)
    if shape == "some never meet":
        pairs = pairs[:9]
    played = [
        _result(number, pair, (chance.choice((0, 0, 1, 2)), chance.choice((0, 1, 1))))
        for number, pair in enumerate(pairs[:-6])
    ]
    left = pairs[-6:]
    tiers = {team: int(shape == "two tiers" and team in "ACE") for team in TEAMS}
    taken = [Deduction(team=TEAMS[0], points=2, why="", ref="")]
    cells = draw_scores(
        [chances(0.8, 0.7) for _ in left], SEASONS, np.random.default_rng(chance.randint(0, 9))
    )
    ends = Ends(
        teams=len(TEAMS),
        played=games(
            played, INDEX, Regulation(criteria=("points",), last_resort="lots").counting
        ),
        deducted=np.array([2, 0, 0, 0, 0, 0]),
        left=[(INDEX[home], INDEX[away]) for home, away in left],
        cells=cells,
        points=Points(),
        worth=np.ones(len(TEAMS), dtype=np.int64),
    )
    ranked = rank_ends(
        ends, ORDERS[order], np.array([tiers[one] for one in TEAMS]), np.random.default_rng(1)
    )
    for season in range(SEASONS):
        results = [
            *played,
            *(
                _result(100 + game, pair, (HOME[cell], AWAY[cell]))
                for game, (pair, cell) in enumerate(
                    zip(left, cells[:, season].tolist(), strict=True)
                )
            ),
        ]
        table = standings(
            results,
            Regulation(criteria=ORDERS[order], last_resort="lots"),
            teams=TEAMS,
            deductions=taken,
            outside=OutsideFigures(tiers=tiers),
        )
        places = {row.team: row.place - 1 for row in table.rows}
        assert ranked.before_lots[:, season].tolist() == [places[team] for team in TEAMS]
        assert sorted(ranked.rank[:, season].tolist()) == list(range(len(TEAMS)))


def test_chance_parts_only_what_the_criteria_leave_level() -> None:
    """Nobody has played: the six orders of three level teams are all drawn, alike often."""
    ends = _nothing_played(teams=3, seasons=6_000)
    ranked = rank_ends(ends, ("points",), np.zeros(3, dtype=np.int64), np.random.default_rng(5))
    orders, counts = np.unique(ranked.rank.T, axis=0, return_counts=True)
    assert len(orders) == 6
    assert ranked.before_lots.max() == 0
    assert abs(counts - 1_000).max() < 5 * np.sqrt(6_000 * (1 / 6) * (5 / 6))


def test_what_is_not_simulated_is_named() -> None:
    criteria: tuple[Criterion, ...] = (
        "points",
        AmongLevel(among_level=("h2h_points", "h2h_points_per_game")),
        "ratings_average",
    )
    assert not_simulated(criteria) == ("among_level", "ratings_average")
    assert not_simulated(ORDERS["mini-tables again"]) == ()


def test_teams_with_unequal_numbers_of_games_are_compared_by_the_game() -> None:
    """3 points of one game are worth more by the game than 4 of two."""
    played = [
        _result(1, (TEAMS[0], TEAMS[2]), (1, 0)),
        _result(2, (TEAMS[1], TEAMS[3]), (1, 0)),
        _result(3, (TEAMS[1], TEAMS[4]), (0, 0)),
    ]
    counting = Regulation(criteria=("points",), last_resort="lots").counting
    ends = Ends(
        teams=6,
        played=games(played, INDEX, counting),
        deducted=np.zeros(6, dtype=np.int64),
        left=(),
        cells=np.zeros((0, 1), dtype=np.uint8),
        points=Points(),
        worth=np.array([2, 1, 2, 2, 2, 2]),
    )
    tiers = np.zeros(6, dtype=np.int64)
    ranked = rank_ends(ends, ("points",), tiers, np.random.default_rng(1))
    assert ranked.before_lots[:, 0].tolist() == [0, 1, 3, 3, 2, 3]


def _result(number: int, pair: tuple[TeamId, TeamId], goals: tuple[int, int]) -> Result:
    return Result(
        game=GameId(str(number)),
        round=1,
        home=pair[0],
        away=pair[1],
        home_goals=int(goals[0]),
        away_goals=int(goals[1]),
    )


def _nothing_played(*, teams: int, seasons: int) -> Ends:
    return Ends(
        teams=teams,
        played=games([], {}, Regulation(criteria=("points",), last_resort="lots").counting),
        deducted=np.zeros(teams, dtype=np.int64),
        left=(),
        cells=np.zeros((0, seasons), dtype=np.uint8),
        points=Points(),
        worth=np.ones(teams, dtype=np.int64),
    )
