"""Measures the standings against one plain pass over the same results, in one process.

The reference adds up points and difference in dicts and sorts nothing; the subject makes
every figure, every row and the ranking. Both are run in turn, and the medians are compared.
"""

from collections.abc import Sequence
from random import Random
from statistics import median

from benchmarks.in_turn import Measured, in_turn
from wholeball.kernel.identity import GameId, TeamId
from wholeball.rulebook.criteria import AmongLevel, Criterion
from wholeball.season.count import Deduction
from wholeball.season.result import Result
from wholeball.season.standings import Regulation, standings

TEAMS = 5_000
RESULTS = 20_000
REPETITIONS = 21

MINI_TABLES: tuple[Criterion, ...] = (
    "points",
    AmongLevel(among_level=("h2h_points", "h2h_difference", "h2h_goals"), again=True),
    "difference",
    "goals",
)


def measure() -> list[Measured]:
    """Return for each operation its name, its reference, the ratio, and the most allowed."""
    teams = [TeamId(f"team {number:04}") for number in range(TEAMS)]
    one_table, pools = _one_table(teams), _pools_of_five(teams)
    apart = [
        Deduction(team=team, points=100 * (number // 5), why="keeps pools apart", ref="none")
        for number, team in enumerate(teams)
    ]
    return [
        _row("points, difference", ("points", "difference"), teams, one_table, most=2.0),
        _row("mini-tables of teams of one table", MINI_TABLES, teams, one_table, most=6.0),
        _row("mini-tables of teams that met", MINI_TABLES, teams, pools, apart=apart, most=6.0),
    ]


def plain_pass(results: Sequence[Result]) -> dict[TeamId, tuple[int, int]]:
    """Return points and difference of each team from one pass with dicts; nothing is sorted."""
    points: dict[TeamId, int] = {}
    difference: dict[TeamId, int] = {}
    for result in results:
        home, away = result.home, result.away
        margin = result.home_goals - result.away_goals
        difference[home] = difference.get(home, 0) + margin
        difference[away] = difference.get(away, 0) - margin
        points[home] = points.get(home, 0) + (3 if margin > 0 else 1 if margin == 0 else 0)
        points[away] = points.get(away, 0) + (3 if margin < 0 else 1 if margin == 0 else 0)
    return {team: (points[team], difference[team]) for team in points}


def _row(
    name: str,
    criteria: tuple[Criterion, ...],
    teams: Sequence[TeamId],
    results: Sequence[Result],
    *,
    most: float,
    apart: Sequence[Deduction] = (),
) -> Measured:
    """Measure one set of criteria; `apart` keeps level teams within pools in which all met."""
    regulation = Regulation(criteria=criteria, last_resort="lots")
    referred, worked = in_turn(
        lambda: plain_pass(results),
        lambda: standings(results, regulation, teams=teams, deductions=apart),
        times=REPETITIONS,
    )
    reference, subject = median(referred), median(worked)
    told = f"{name}: {TEAMS:,} teams, {RESULTS:,} results, {subject * 1000:.1f} ms"
    return told, f"one dict pass, {reference * 1000:.1f} ms", subject / reference, most


def _one_table(teams: Sequence[TeamId]) -> list[Result]:
    """Eight rounds in one table of all the teams, opponents drawn anew each round."""
    chance = Random(1)  # noqa: S311  the same games each time, no secret
    order = list(teams)
    games: list[Result] = []
    for round_number in range(1, 2 * RESULTS // TEAMS + 1):
        chance.shuffle(order)
        pairs = zip(order[::2], order[1::2], strict=True)
        games += [
            _game(len(games) + i, round_number, pair, chance) for i, pair in enumerate(pairs)
        ]
    return games


def _pools_of_five(teams: Sequence[TeamId]) -> list[Result]:
    """Pools of five in which each two teams meet twice: level teams of one pool have met."""
    chance = Random(2)  # noqa: S311  the same games each time, no secret
    games: list[Result] = []
    for start in range(0, len(teams), 5):
        pool = teams[start : start + 5]
        pairs = [(home, away) for home in pool for away in pool if home != away]
        games += [_game(len(games) + i, i + 1, pair, chance) for i, pair in enumerate(pairs)]
    return games


def _game(
    number: int, round_number: int, pair: tuple[TeamId, TeamId], chance: Random
) -> Result:
    home, away = pair
    return Result(
        game=GameId(f"game {number:05}"),
        round=round_number,
        home=home,
        away=away,
        home_goals=chance.choice((0, 0, 1, 1, 1, 2, 2, 3, 4)),
        away_goals=chance.choice((0, 0, 1, 1, 1, 2, 2, 3, 4)),
    )
