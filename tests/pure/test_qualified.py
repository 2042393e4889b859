"""Who goes on follows the rulebook: pools or all, unequal pools, ratings, lots and seeds."""

from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import cache
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.league import League, Team
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import load
from wholeball.season.qualified import LeftOut, Qualified, qualified
from wholeball.season.record import Dropped
from wholeball.season.result import Result
from wholeball.season.season import Season
from wholeball.season.tally import Lots, OutsideFigures

CRITERIA = '["points", "difference", "goals"]'


def test_the_first_two_of_each_pool_go_on_by_place_then_record() -> None:
    found = qualified(_season("per_pool", 2, {"A": "abc", "B": "xyz"}, _two_pools()))
    assert _seeds(found) == [
        (1, "x", "B", 1, "record"),
        (2, "a", "A", 1, "pool_place"),
        (3, "b", "A", 2, "record"),
        (4, "y", "B", 2, "last"),
    ]
    assert found.left_out == (
        LeftOut(team=TeamId("z"), pool=PoolId("B"), place=3, why="places"),
        LeftOut(team=TeamId("c"), pool=PoolId("A"), place=3, why="places"),
    )
    assert found.undecided == ()


def test_the_record_that_gives_a_seed_says_what_parted_the_two() -> None:
    found = qualified(_season("per_pool", 2, {"A": "abc", "B": "xyz"}, _two_pools()))
    first = found.seeds[0].separation
    assert first is not None
    assert first.by is not None
    assert (first.above, first.below, first.by.criterion) == ("x", "a", "difference")


def test_overall_the_best_records_go_on_whatever_their_pools() -> None:
    found = qualified(
        _season("overall", 3, {"A": "abc", "B": "xyz"}, _two_pools(), seeded_by="record")
    )
    assert found.teams == ("x", "a", "b")


def test_all_go_on_save_who_fails_the_rating() -> None:
    season = _season("all", 0, {"A": "abc", "B": "xyz"}, _two_pools(), seeded_by="record")
    found = qualified(season, failing=[TeamId("a")])
    assert found.teams == ("x", "b", "y", "z", "c")
    assert found.left_out == (
        LeftOut(team=TeamId("a"), pool=PoolId("A"), place=1, why="rating"),
    )


def test_where_there_are_no_play_offs_nobody_goes_on() -> None:
    found = qualified(_season("none", 0, {"A": "abc", "B": "xyz"}, _two_pools()))
    assert (found.seeds, found.undecided, len(found.left_out)) == ((), (), 6)


def test_the_next_of_its_pool_takes_the_place_of_a_team_that_fails_the_rating() -> None:
    season = _season("per_pool", 2, {"A": "abc", "B": "xyz"}, _two_pools())
    found = qualified(season, failing=[TeamId("b")])
    assert found.teams == ("x", "a", "y", "c")


def test_a_team_that_was_taken_out_does_not_go_on() -> None:
    games = [
        *_played("A", "a3b0 a0c1 b1c0"),
        Result(
            game=GameId("f1"),
            round=4,
            home=TeamId("a"),
            away=TeamId("b"),
            how="forfeit",
            by="home",
        ),
        Result(
            game=GameId("f2"),
            round=5,
            home=TeamId("a"),
            away=TeamId("c"),
            how="forfeit",
            by="home",
        ),
    ]
    season = _season("per_pool", 2, {"A": "abc"}, games, removed_after=2)
    found = qualified(season)
    assert set(found.teams) == {"b", "c"}
    assert found.left_out == (LeftOut(team=TeamId("a"), pool=PoolId("A"), place=3, why="out"),)


def test_level_teams_at_the_last_place_leave_it_undecided_until_lots_are_drawn() -> None:
    """A beat both; B and C drew, with the same figures."""
    games = _played("A", "a1b0 a1c0 b1c1")
    season = _season("per_pool", 2, {"A": "abc"}, games)
    assert qualified(season).undecided == (("b", "c"),)
    drawn = _season("per_pool", 2, {"A": "abc"}, games, lots=("c", "b"))
    assert (qualified(drawn).teams, qualified(drawn).undecided) == (("a", "c"), ())


def test_level_teams_that_both_go_on_leave_only_their_seeds_undecided() -> None:
    games = _played("A", "a1b0 a1c0 b1c1")
    found = qualified(_season("per_pool", 3, {"A": "abc"}, games))
    assert found.undecided == (("b", "c"),)
    assert [one.parted for one in found.seeds] == ["pool_place", "nothing", "last"]


def test_lots_give_seeds_where_the_rulebook_says_so_and_wait_to_be_drawn() -> None:
    pools = {"A": "abc", "B": "xyz"}
    season = _season("per_pool", 1, pools, _two_pools(), seeded_by="lots")
    assert [set(teams) for teams in qualified(season).undecided] == [{"a", "x"}]
    drawn = _season("per_pool", 1, pools, _two_pools(), seeded_by="lots", lots=("b", "a", "x"))
    assert _seeds(qualified(drawn)) == [(1, "a", "A", 1, "lots"), (2, "x", "B", 1, "last")]


def test_lots_part_the_seeds_of_teams_that_share_a_place_of_a_table() -> None:
    """Two pools with the same scores; their rulebook shares places and never asks lots."""
    games = [*_played("A", "a1b0"), *_played("B", "x1y0")]
    pools = {"A": "ab", "B": "xy"}
    season = _season("per_pool", 1, pools, games, last_resort="shared")
    assert qualified(season).undecided == (("a", "x"),)
    drawn = _season("per_pool", 1, pools, games, last_resort="shared", lots=("x", "a"))
    assert (qualified(drawn).teams, qualified(drawn).undecided) == (("x", "a"), ())


def test_pools_with_unequal_numbers_of_games_are_compared_by_the_game() -> None:
    """A has 6 points of 3 games, difference +1; X has 4 points of 2 games, difference +4."""
    games = [*_played("A", "a2b1 a2c1 a0d1 b0c0 b0d0 c0d0"), *_played("B", "x1y1 x4z0 y0z0")]
    season = _season("per_pool", 1, {"A": "abcd", "B": "xyz"}, games)
    found = qualified(season)
    record = found.record
    assert (record.per_game, record.least, record.most) == (True, 2, 3)
    assert found.teams == ("x", "a")
    assert found.seeds[0].separation is not None
    asked = found.seeds[0].separation.asked
    assert [(one.above, one.below) for one in asked] == [
        (Fraction(2), Fraction(2)),
        (Fraction(2), Fraction(1, 3)),
    ]


def test_pools_with_equal_numbers_of_games_are_compared_by_their_totals() -> None:
    found = qualified(_season("per_pool", 1, {"A": "abc", "B": "xyz"}, _two_pools()))
    assert (found.record.per_game, found.record.least, found.record.most) == (False, 2, 2)


def test_games_against_the_last_of_the_larger_pool_are_dropped_and_named() -> None:
    games = [*_played("A", "a2b1 a2c1 a9d0 b1c0 b0d0 c2d0"), *_played("B", "x1y1 x4z0 y0z0")]
    season = _season(
        "per_pool", 1, {"A": "abcd", "B": "xyz"}, games, unequal="drop_games_against_last"
    )
    found = qualified(season)
    assert found.record.dropped == (
        Dropped(
            team=TeamId("d"),
            pool=PoolId("A"),
            games=tuple(GameId(f"A{number}") for number in (3, 5, 6)),
        ),
    )
    assert found.record.per_game is False
    assert [(one.team, one.row.points, one.row.difference) for one in found.seeds] == [
        ("a", 6, 2),
        ("x", 4, 4),
    ]


def test_the_last_of_the_larger_pool_stands_below_all_that_have_a_counterpart() -> None:
    games = [*_played("A", "a0d1 a1b0 a1c0 b1c0 b1d0 c1d0"), *_played("B", "x1y0 x1z0 y1z0")]
    season = _season(
        "all",
        0,
        {"A": "abcd", "B": "xyz"},
        games,
        unequal="drop_games_against_last",
        seeded_by="record",
    )
    found = qualified(season)
    assert found.teams[-1] == found.record.dropped[0].team


def _of_five(*, out: str = "") -> list[Result]:
    """Play a round robin of e to i; whoever is out forfeits every game."""
    games = _played("B", "e1f0 e1g0 e1h0 e1i0 f1g0 f1h0 f1i0 g1h0 g1i0 h1i0")
    return [
        replace(one, how="forfeit", by="home" if one.home == out else "away")
        if out in (one.home, one.away)
        else one
        for one in games
    ]


def test_whoever_was_taken_out_is_the_last_whose_games_are_dropped_first() -> None:
    """Pools of four, five and three: of the five, i is out and h is the last of the others."""
    games = [
        *_played("A", "a1b0 a1c0 a1d0 b1c0 b1d0 c1d0"),
        *_of_five(out="i"),
        *_played("C", "x1y0 x1z0 y1z0"),
    ]
    season = _season(
        "per_pool",
        1,
        {"A": "abcd", "B": "efghi", "C": "xyz"},
        games,
        unequal="drop_games_against_last",
        removed_after=1,
        removed="rest_forfeited",
    )
    found = qualified(season).record
    assert [(one.team, one.pool, len(one.games)) for one in found.dropped] == [
        ("d", "A", 3),
        ("h", "B", 4),
        ("i", "B", 4),
    ]
    assert (found.per_game, found.least, found.most) == (False, 2, 2)


@pytest.mark.parametrize(
    ("removed", "other", "dropped"),
    [
        ("rest_forfeited", "wxy", ["d"]),
        ("rest_forfeited", "wxyz", []),
        ("annulled", "wxy", []),
        ("annulled", "wxyz", ["z"]),
    ],
)
def test_a_team_that_is_out_makes_its_pool_smaller_only_where_its_games_are_annulled(
    removed: str, other: str, dropped: list[str]
) -> None:
    """In a pool of four d is out; its games count as forfeits, or not at all."""
    north = [
        replace(one, how="forfeit", by="away") if one.away == "d" else one
        for one in _played("A", "a1d0 a1b0 a1c0 b1c0 b1d0 c1d0")
    ]
    south = _played("B", " ".join(f"{one}1{two}0" for one, two in combinations(other, 2)))
    season = _season(
        "per_pool",
        1,
        {"A": "abcd", "B": other},
        [*north, *south],
        unequal="drop_games_against_last",
        removed_after=1,
        removed=removed,
    )
    found = qualified(season).record
    assert [one.team for one in found.dropped] == dropped
    assert found.per_game is False


def test_a_cut_season_is_compared_by_the_game_even_after_games_are_dropped() -> None:
    games = [*_played("A", "a2b1 a2c1 a9d0 b1c0 b0d0 c2d0"), *_played("B", "x1y1 x4z0")]
    season = _season(
        "per_pool", 1, {"A": "abcd", "B": "xyz"}, games, unequal="drop_games_against_last"
    )
    record = qualified(season).record
    assert (record.per_game, record.least, record.most) == (True, 1, 2)


def test_before_any_game_everything_is_undecided() -> None:
    found = qualified(_season("per_pool", 1, {"A": "ab"}, []))
    assert (found.teams, found.undecided) == (("a",), (("a", "b"),))


@given(st.lists(st.tuples(st.integers(0, 3), st.integers(0, 3)), min_size=12, max_size=12))
def test_as_many_go_on_as_there_are_places_and_each_team_is_told_once(
    scores: list[tuple[int, int]],
) -> None:
    pools = {"A": "abcd", "B": "wxyz"}
    pairs = [pair for names in pools.values() for pair in combinations(names, 2)]
    games = [
        Result(
            game=GameId(f"g{number}"),
            round=1,
            home=TeamId(home),
            away=TeamId(away),
            home_goals=score[0],
            away_goals=score[1],
        )
        for number, ((home, away), score) in enumerate(zip(pairs, scores, strict=True))
    ]
    found = qualified(_season("per_pool", 2, pools, games))
    told = [*found.teams, *(one.team for one in found.left_out)]
    assert len(found.seeds) == 4
    assert sorted(told) == sorted("abcdwxyz")
    assert [one.place for one in found.seeds] == sorted(one.place for one in found.seeds)


def _two_pools() -> list[Result]:
    """A beats both, B beats C; the same in the other pool with more goals."""
    return [*_played("A", "a1b0 a1c0 b2c0"), *_played("B", "x2y0 x1z0 y1z0")]


def _played(pool: str, games: str) -> list[Result]:
    return [
        Result(
            game=GameId(f"{pool}{number}"),
            round=number,
            home=TeamId(one[0]),
            away=TeamId(one[2]),
            home_goals=int(one[1]),
            away_goals=int(one[3]),
        )
        for number, one in enumerate(games.split(), start=1)
    ]


@cache
def _book(play_offs: str, last_resort: str, removed_after: int, removed: str) -> Rulebook:
    text = f"""
        schema = 1
        base = "laws-2025-26"
        name = "House"
        [standings]
        criteria = {CRITERIA}
        last_resort = "{last_resort}"
        [play_offs]
        {play_offs}
        [forfeit.removal]
        after_forfeits = {removed_after}
        results = "{removed}"
    """
    return load(text.encode(), file="house.toml").rulebook


def _season(
    qualify: str,
    places: int,
    pools: dict[str, str],
    results: list[Result],
    *,
    seeded_by: str = "pool_place_then_record",
    unequal: str = "per_game",
    last_resort: str = "lots",
    lots: tuple[str, ...] = (),
    removed_after: int = 9,
    removed: str = "kept",
) -> Season:
    play_offs = "\n".join(
        (
            f'qualify = "{qualify}"',
            f"places = {places}",
            f'seeded_by = "{seeded_by}"',
            f'unequal_pools = "{unequal}"',
        )
    )
    drawn = [Lots(label="drawn", order=tuple(map(TeamId, lots)))] if lots else []
    return Season(
        league=League(
            name="League",
            timezone="UTC",
            first_day=date(2027, 3, 1),
            last_day=date(2027, 5, 31),
            teams=tuple(
                Team(team=TeamId(team), pool=PoolId(pool))
                for pool, teams in pools.items()
                for team in teams
            ),
        ),
        rulebook=_book(play_offs, last_resort, removed_after, removed),
        results=tuple(results),
        outside=OutsideFigures(lots=drawn),
    )


def _seeds(found: Qualified) -> list[tuple[int, str, str, int, str]]:
    return [(one.seed, one.team, one.pool, one.place, one.parted) for one in found.seeds]
