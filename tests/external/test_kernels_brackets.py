"""Brackets agree with the check values of the numerical kernels.

Seed orders and byes are the usual printed brackets (common practice, no source); the number of
brackets and the chances of winning one were computed for the check data by enumeration.
"""

from math import factorial
from typing import Any

import pytest

from external.cases import read
from wholeball.kernel.identity import TeamId
from wholeball.season.bracket import bracket, byes, first_round, fold, size_for
from wholeball.season.bracket_odds import winning
from wholeball.season.bracket_run import run

HERE = "kernels/k06_k07_brackets_roundrobin.json"
DATA: dict[str, Any] = read(HERE)
NO_METHOD = {
    "double_elim": "a bracket with a second life is not offered",
    "swiss": "rounds paired by score are not offered",
    "berger": "tables of rounds belong to the timetable",
    "rr_metrics": "measures of rounds belong to the timetable",
    "gf_balanced_coe": "balanced rounds belong to the timetable",
    "double_rr_max_run": "double rounds belong to the timetable",
}
CHECKED = {
    "_meta",
    "seed_order",
    "byes",
    "bracket_dp_strength_9_minus_seed",
    "number_of_distinct_brackets",
}


def _numbers(name: str) -> list[str]:
    """Return the sizes that a group of values is given for; none where the file lacks it."""
    return sorted((str(size) for size in DATA.get(name, {})), key=int)


def test_every_group_of_values_in_the_file_is_checked_or_skipped_by_name() -> None:
    assert set(DATA) - CHECKED - set(NO_METHOD) == set()
    assert set(DATA) & CHECKED - {"_meta"} != set()


@pytest.mark.parametrize("name", sorted(set(DATA) & set(NO_METHOD)))
def test_a_method_that_is_not_offered_is_not_checked(name: str) -> None:
    pytest.skip(f"{name}: {NO_METHOD[name]}")


@pytest.mark.parametrize("size", _numbers("seed_order"))
def test_seeds_fold_into_the_order_given(size: str) -> None:
    assert list(fold(int(size))) == DATA["seed_order"][size]


@pytest.mark.parametrize("teams", _numbers("byes"))
def test_byes_games_and_first_round_are_those_given(teams: str) -> None:
    n = int(teams)
    games = bracket(n, third_place=False)
    playing = {seed for pair in first_round(n) for seed in pair}
    assert {
        "size": size_for(n),
        "byes": byes(n),
        "games": len(games),
        "rounds": max(game.round for game in games),
        "round1": [list(pair) for pair in first_round(n)],
        "bye_seeds": [seed for seed in range(1, n + 1) if seed not in playing],
    } == DATA["byes"][teams]


def test_each_seed_wins_the_bracket_as_often_as_enumeration_says() -> None:
    """Eight seeds, each as strong as 9 less its seed; a team wins by its share of both."""
    expected = DATA["bracket_dp_strength_9_minus_seed"]
    teams = {seed: TeamId(str(seed)) for seed in range(1, len(expected) + 1)}
    lines = run(bracket(len(teams), third_place=True), teams, [])

    def beats(one: TeamId, other: TeamId) -> float:
        first, second = 9 - int(one), 9 - int(other)
        return first / (first + second)

    found = winning(lines, beats)
    assert {seed: found[TeamId(seed)] for seed in expected} == pytest.approx(
        expected, abs=1e-12
    )


@pytest.mark.parametrize("size", _numbers("number_of_distinct_brackets"))
def test_brackets_are_as_many_as_orders_of_seeds_less_those_that_only_turn_games_round(
    size: str,
) -> None:
    """Turning round any game changes no meeting: n! / 2^(n - 1) brackets for n - 1 games."""
    games = len(bracket(int(size), third_place=False))
    found = factorial(int(size)) // 2**games
    assert found == DATA["number_of_distinct_brackets"][size]
