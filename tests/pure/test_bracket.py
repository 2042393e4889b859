"""A bracket folds its seeds, gives byes to the best, keeps pools apart and fills itself."""

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import From, Seeded
from wholeball.season.bracket import (
    BracketGame,
    Moved,
    bracket,
    byes,
    first_round,
    fold,
    kept_apart,
    size_for,
)
from wholeball.season.fewest import cheapest


def test_eight_seeds_fold_so_that_each_pair_adds_up_to_nine() -> None:
    assert fold(8) == (1, 8, 4, 5, 2, 7, 3, 6)


@pytest.mark.parametrize("teams", range(2, 65))
def test_a_bracket_has_a_game_less_than_teams_and_each_side_once(teams: int) -> None:
    games = bracket(teams, third_place=False)
    sides = [side for game in games for side in (game.home, game.away)]
    final = games[-1].game
    fed = [From(game=game.game) for game in games if game.game != final]
    seeded = [Seeded(seed=seed) for seed in range(1, teams + 1)]
    assert len(games) == teams - 1
    assert sorted(map(repr, sides)) == sorted(map(repr, [*fed, *seeded]))


@pytest.mark.parametrize("teams", range(2, 65))
def test_byes_go_to_the_best_seeds_and_two_of_them_never_share_a_game(teams: int) -> None:
    meet = {seed for pair in first_round(teams) for seed in pair}
    assert set(range(1, teams + 1)) - meet == set(range(1, byes(teams) + 1))
    assert byes(teams) == size_for(teams) - teams
    lines = fold(size_for(teams))
    pairs = zip(lines[::2], lines[1::2], strict=True)
    assert all(min(pair) <= teams for pair in pairs)


@pytest.mark.parametrize("teams", range(2, 65))
def test_if_the_better_seed_always_wins_each_round_pairs_best_with_worst(teams: int) -> None:
    games = bracket(teams, third_place=False)
    winner: dict[GameId, int] = {}
    met: dict[int, list[tuple[int, int]]] = {}
    for game in games:
        home, away = (_seed(side, winner) for side in (game.home, game.away))
        winner[game.game] = min(home, away)
        met.setdefault(game.round, []).append((home, away))
    for number, pairs in met.items():
        whole = size_for(teams) >> (number - 1)
        assert {sum(pair) for pair in pairs} == {whole + 1}


def test_the_game_for_third_place_is_of_the_two_losers_and_stands_before_the_final() -> None:
    assert bracket(4, third_place=True) == (
        BracketGame(game=GameId("P1"), round=1, home=Seeded(seed=1), away=Seeded(seed=4)),
        BracketGame(game=GameId("P2"), round=1, home=Seeded(seed=2), away=Seeded(seed=3)),
        BracketGame(
            game=GameId("P3"),
            round=2,
            home=From(game=GameId("P1"), takes="loser"),
            away=From(game=GameId("P2"), takes="loser"),
            for_third=True,
        ),
        BracketGame(
            game=GameId("P4"),
            round=2,
            home=From(game=GameId("P1")),
            away=From(game=GameId("P2")),
        ),
    )


def test_three_teams_play_no_game_for_third_place_and_four_do() -> None:
    assert [len(bracket(teams, third_place=True)) for teams in (3, 4)] == [2, 4]


@pytest.mark.parametrize("teams", [0, 1, 65])
def test_a_bracket_of_fewer_than_two_or_more_than_64_teams_is_refused(teams: int) -> None:
    with pytest.raises(WholeballError, match="cannot be made"):
        bracket(teams, third_place=False)


def test_two_of_one_pool_are_kept_apart_by_an_exchange_with_the_next_seed() -> None:
    """Seeds 3 and 6 are of pool C; 6 and 7 exchange, two places in all."""
    teams, pools = _league("ABCABCAB")
    found = kept_apart(teams, pools)
    assert found.teams == tuple(map(TeamId, ("t1", "t2", "t3", "t4", "t5", "t7", "t6", "t8")))
    assert found.moved == (
        Moved(team=TeamId("t6"), was=6, now=7),
        Moved(team=TeamId("t7"), was=7, now=6),
    )
    assert found.meet == ()


def test_nobody_moves_where_no_two_of_one_pool_would_meet() -> None:
    teams, pools = _league("ABCDABCD")
    found = kept_apart(teams, pools)
    assert (found.teams, found.moved, found.meet) == (teams, (), ())


def test_a_pool_with_more_teams_than_games_must_meet_itself_and_that_is_said() -> None:
    """Three of four teams are of pool A and there are two games: one of them is among A."""
    teams, pools = _league("AAAB")
    found = kept_apart(teams, pools)
    assert len(found.meet) == 1
    assert found.moved == ()


@given(st.text("ABC", min_size=2, max_size=7))
def test_no_exchange_of_the_lower_seeds_costs_less(letters: str) -> None:
    teams, pools = _league(letters)
    found = kept_apart(teams, pools)
    low = sorted(pair[1] for pair in first_round(len(teams)))
    tried = []
    for now in permutations(low):
        order = list(teams)
        for was, seed in zip(low, now, strict=True):
            order[seed - 1] = teams[was - 1]
        meet = sum(
            pools[order[a - 1]] == pools[order[b - 1]] for a, b in first_round(len(teams))
        )
        places = sum(abs(a - b) for a, b in zip(low, now, strict=True))
        tried.append((meet, places, sum(a != b for a, b in zip(low, now, strict=True))))
    moves = [abs(one.was - one.now) for one in found.moved]
    assert (len(found.meet), sum(moves), len(moves)) == min(tried)


@given(st.text("ABCD", min_size=2, max_size=64))
def test_pools_are_kept_apart_whenever_none_has_more_teams_than_games(letters: str) -> None:
    teams, pools = _league(letters)
    playing = [seed for pair in first_round(len(teams)) for seed in pair]
    counts = [sum(pools[teams[seed - 1]] == pool for seed in playing) for pool in "ABCD"]
    too_many = any(count > len(playing) // 2 for count in counts)
    assert bool(kept_apart(teams, pools).meet) == too_many


@given(
    st.integers(1, 6).flatmap(
        lambda n: st.lists(
            st.lists(st.integers(0, 50), min_size=n, max_size=n), min_size=n, max_size=n
        )
    )
)
def test_the_cheapest_columns_are_those_that_trying_all_finds(costs: list[list[int]]) -> None:
    n = len(costs)
    columns = cheapest(costs)
    best = min(
        sum(costs[row][column] for row, column in enumerate(each))
        for each in permutations(range(n))
    )
    assert sorted(columns) == list(range(n))
    assert sum(costs[row][column] for row, column in enumerate(columns)) == best


def _seed(side: object, winner: dict[GameId, int]) -> int:
    if isinstance(side, Seeded):
        return side.seed
    assert isinstance(side, From)
    return winner[side.game]


def _league(letters: str) -> tuple[tuple[TeamId, ...], dict[TeamId, PoolId]]:
    teams = tuple(TeamId(f"t{number}") for number in range(1, len(letters) + 1))
    return teams, dict(zip(teams, map(PoolId, letters), strict=True))
