"""Round robins agree with the Berger tables of the FIDE Handbook, C.05 Annex 1.

Brackets, which share the file of check values, are held to it beside them.
"""

from collections import Counter
from itertools import pairwise
from typing import Any

import pytest

from external.cases import read
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.planning.pairings import pairings
from wholeball.planning.round_robin import Round, berger, breaks, carry_over, round_robin

DATA: dict[str, Any] = read("kernels/k06_k07_brackets_roundrobin.json")


def rounds_of(listed: list[list[list[int]]]) -> tuple[Round, ...]:
    return tuple(tuple((home, away) for home, away in games) for games in listed)


def as_sets(rounds: tuple[Round, ...]) -> list[set[tuple[int, int]]]:
    return [set(games) for games in rounds]


@pytest.mark.parametrize("teams", DATA["berger"])
def test_a_berger_table_is_the_published_one_with_its_sides(teams: str) -> None:
    listed = rounds_of(DATA["berger"][teams]["rounds"])
    assert as_sets(berger(int(teams))) == as_sets(listed)


@pytest.mark.parametrize("teams", DATA["rr_metrics"])
def test_a_berger_table_has_the_published_figures(teams: str) -> None:
    metrics, rounds = DATA["rr_metrics"][teams], berger(int(teams))
    first = Counter(home for games in rounds for home, _ in games)
    assert breaks(rounds) == metrics["breaks"] == metrics["bound"]
    assert carry_over(rounds) == metrics["coe_berger"]
    assert {str(team): first[team] for team in range(1, int(teams) + 1)} == metrics[
        "home_counts"
    ]


@pytest.mark.parametrize("teams", DATA["gf_balanced_coe"])
def test_a_balanced_schedule_has_the_published_carry_over(teams: str) -> None:
    """Balance is possible for powers of two (Russell, Biometrika 1980)."""
    published = DATA["gf_balanced_coe"][teams]
    assert carry_over(rounds_of(published["schedule"])) == published["coe"]
    if int(teams) <= 10:
        assert carry_over(round_robin(int(teams))) == published["coe"]


@pytest.mark.parametrize("teams", DATA["double_rr_max_run"])
def test_exchanging_two_rounds_keeps_runs_on_one_side_at_two(teams: str) -> None:
    names = tuple(TeamId(f"T{number:02}") for number in range(1, int(teams) + 1))
    games = pairings({PoolId("A"): names}, meetings=2)
    plain, exchanged = DATA["double_rr_max_run"][teams]
    assert (plain, exchanged) == (3, 2)
    assert (
        max(
            longest_run([one.home == name for one in games if name in one.sides])
            for name in names
        )
        == exchanged
    )


def longest_run(sides: list[bool]) -> int:
    longest = run = 1
    for now, then in pairwise(sides):
        run = run + 1 if now == then else 1
        longest = max(longest, run)
    return longest
