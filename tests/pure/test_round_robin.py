"""The tables by which teams meet: values of published collections, and what each table keeps."""

from collections import Counter
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import PoolId, TeamId
from wholeball.planning.pairings import pairings
from wholeball.planning.round_robin import (
    berger,
    breaks,
    carry_over,
    part_of_round_robin,
    round_robin,
)


@pytest.mark.parametrize(("teams", "value"), [(4, 12), (6, 60), (8, 56), (10, 108)])
def test_tables_have_the_least_carry_over_known(teams: int, value: int) -> None:
    """Best known values of the RobinX collection (Van Bulck, Goossens and others, EJOR 2020)."""
    assert carry_over(round_robin(teams)) == value


@pytest.mark.parametrize(
    ("teams", "value"), [(4, 12), (6, 60), (8, 196), (10, 468), (12, 924), (14, 1612)]
)
def test_bergers_tables_have_the_carry_over_of_the_circle(teams: int, value: int) -> None:
    """The circle method's carry-over is the largest (Lambrechts and others, Math. Prog. 2018)."""
    assert carry_over(berger(teams)) == value


@pytest.mark.parametrize("teams", range(4, 21, 2))
def test_bergers_tables_have_as_few_breaks_as_there_can_be(teams: int) -> None:
    """A round robin of n teams has n - 2 breaks at least (de Werra 1981, from memory)."""
    assert breaks(berger(teams)) == teams - 2


@given(st.integers(2, 24))
def test_all_teams_meet_once_and_play_at_most_once_a_round(teams: int) -> None:
    rounds = round_robin(teams)
    met = [frozenset(pair) for games in rounds for pair in games]
    assert sorted(map(sorted, met)) == sorted(map(list, combinations(range(1, teams + 1), 2)))
    assert all(
        max(Counter(one for pair in games for one in pair).values()) == 1 for games in rounds
    )
    assert len(rounds) == teams - 1 + teams % 2


@given(st.integers(2, 24))
def test_nobody_is_listed_first_much_more_often_than_second(teams: int) -> None:
    first = Counter(home for games in round_robin(teams) for home, _ in games)
    games = teams - 1
    assert all(abs(2 * first[team] - games) <= 2 for team in range(1, teams + 1))


@given(st.integers(3, 16), st.data())
def test_a_part_gives_every_team_the_same_number_of_games(
    teams: int, data: st.DataObject
) -> None:
    games = data.draw(st.integers(1, teams - 1))
    if teams % 2 and games % 2:
        with pytest.raises(ValueError, match="both are odd"):
            part_of_round_robin(teams, games)
        return
    rounds = part_of_round_robin(teams, games)
    played = Counter(one for pairs in rounds for pair in pairs for one in pair)
    assert played == dict.fromkeys(range(1, teams + 1), games)
    met = [frozenset(pair) for pairs in rounds for pair in pairs]
    assert len(set(met)) == len(met)


@pytest.mark.parametrize(("teams", "games"), [(5, 0), (5, 5), (8, 8)])
def test_a_team_meets_one_to_all_others(teams: int, games: int) -> None:
    with pytest.raises(ValueError, match=f"{teams} teams meet 1 to {teams - 1} others"):
        part_of_round_robin(teams, games)


def test_a_table_of_one_team_and_a_berger_table_of_five_are_refused() -> None:
    with pytest.raises(ValueError, match="2 teams or more, got 1"):
        round_robin(1)
    with pytest.raises(ValueError, match="even number of teams, got 5"):
        berger(5)


def test_games_are_numbered_round_by_round_over_all_pools() -> None:
    pools = {PoolId(name): tuple(TeamId(f"{name}{n}") for n in range(1, 5)) for name in "AB"}
    found = pairings(pools)
    assert [(one.game, one.pool, one.round, one.home, one.away) for one in found[:5]] == [
        ("1", "A", 1, "A1", "A4"),
        ("2", "A", 1, "A2", "A3"),
        ("3", "B", 1, "B1", "B4"),
        ("4", "B", 1, "B2", "B3"),
        ("5", "A", 2, "A4", "A3"),
    ]
    assert len(found) == 12


def test_with_two_meetings_each_side_is_listed_first_once_and_never_three_times_on_end() -> (
    None
):
    teams = tuple(TeamId(f"T{n}") for n in range(1, 7))
    found = pairings({PoolId("A"): teams}, meetings=2)
    assert Counter((one.home, one.away) for one in found) == Counter(
        (one, other) for one in teams for other in teams if one != other
    )
    for team in teams:
        sides = "".join("h" if one.home == team else "a" for one in found if team in one.sides)
        assert "hhh" not in sides
        assert "aaa" not in sides
