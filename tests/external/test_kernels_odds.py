"""Proofs and odds agree with the check values of the numerical kernels.

The two tables of games left are exercises of K. Wayne on baseball elimination; the values of
Poisson scores are those of the Skellam distribution.
"""

from typing import Any

import pytest

from external.cases import read
from wholeball.kernel.identity import TeamId
from wholeball.season.race import Race
from wholeball.season.scores import AWAY, HOME, chances
from wholeball.solvers.clinch import verdicts

HERE = "kernels/k03_odds_elimination.json"
DATA: dict[str, Any] = read(HERE)
BASEBALL = ((1, 0), (0, 1))
SOCCER = ((3, 0), (1, 1), (0, 3))
TABLES = sorted(name for name in DATA if name.startswith("elim_"))
NO_METHOD = {
    "bt_baseball_home0": "strengths come from goals, not from wins alone (Bradley and Terry)",
    "bt_baseball_home1": "strengths come from goals, and grounds are neutral",
    "bt_choix": "strengths come from goals, not from wins alone",
    "davidson_pudding": "draws come from equal goals, not from a chance of their own (Davidson)",
    "soccer_ilp_vs_brute": "its leagues are not published; tests/test_clinch.py tries its own",
    "timing_12x30_s": "a time measured on another machine",
}
CHECKED = {
    "_meta",
    *TABLES,
    "hand_example_310",
    "poisson_1.5_1.2",
}


def test_every_group_of_values_in_the_file_is_checked_or_skipped_by_name() -> None:
    assert set(DATA) - CHECKED - set(NO_METHOD) == set()
    assert len(TABLES) > 0


@pytest.mark.parametrize("name", sorted(set(DATA) & set(NO_METHOD)))
def test_a_method_that_is_not_ours_is_not_checked(name: str) -> None:
    pytest.skip(f"{name}: {NO_METHOD[name]}")


@pytest.mark.parametrize("name", TABLES)
def test_who_can_still_be_first_is_as_the_published_table_says(name: str) -> None:
    """A point a win and no draws; a team level at the top is not out."""
    table = DATA[name]["input"]
    teams = tuple(TeamId(row[0]) for row in table)
    games = tuple(
        (one, other)
        for one, row in enumerate(table)
        for other in range(one)
        for _ in range(row[4][other])
    )
    outside = sum(row[3] - sum(row[4]) for row in table)
    race = Race(
        teams=(*teams, TeamId("others")),
        points=(*(row[1] for row in table), -1_000_000),
        games=(*games, *_against_others(table)),
        places=1,
        outcomes=BASEBALL,
    )
    found = {one.team: one.in_ties_won is False for one in verdicts(race)}
    expected = {team: row["eliminated"] for team, row in DATA[name]["result"].items()}
    assert {team: found[TeamId(team)] for team in expected} == expected
    assert outside == len(_against_others(table))


def _against_others(table: list[list[Any]]) -> tuple[tuple[int, int], ...]:
    """Return the games left against teams that are not in the table."""
    return tuple(
        (team, len(table))
        for team, row in enumerate(table)
        for _ in range(row[3] - sum(row[4]))
    )


def test_the_worked_table_with_three_points_a_win_has_its_team_out() -> None:
    row = given("hand_example_310")
    teams = tuple(TeamId(str(team)) for team in range(len(row["points"])))
    race = Race(
        teams=teams,
        points=tuple(row["points"]),
        games=tuple((home, away) for home, away in row["games"]),
        places=row["k"],
        outcomes=SOCCER,
    )
    assert verdicts(race)[row["team"]].status == "out"
    assert row["verdict"].startswith("eliminated")


def test_wins_draws_and_losses_of_poisson_scores_are_those_of_skellam() -> None:
    row = given("poisson_1.5_1.2")
    cells = chances(1.5, 1.2)
    found = {
        "win": cells[HOME > AWAY].sum(),
        "draw": cells[HOME == AWAY].sum(),
        "loss": cells[HOME < AWAY].sum(),
    }
    expected = {name: row[name] for name in found}
    assert found == pytest.approx(expected, abs=1e-11)
    assert list(expected.values()) == pytest.approx(row["skellam"], abs=1e-12)


def given(name: str) -> Any:
    """Return one group of values; a file without it skips the test that asks."""
    if name not in DATA:
        pytest.skip(f"{HERE} holds no {name}")
    return DATA[name]
