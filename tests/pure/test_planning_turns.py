"""Rounds by the calendar: what a pool plays in a week, and what a repair makes of it.

That the games of a week are a round is common practice, no source.
"""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.tiny_season import EARLY, LATE, MIDDLE, at, pairing, plan, question, slots
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import Seeded
from wholeball.planning.pairings import pairings
from wholeball.planning.problem import Start
from wholeball.planning.turns import in_rounds, kept

DAYS = (0, 2, 7, 9, 14, 16, 21, 28)
USABLE = slots(DAYS, (EARLY, MIDDLE, LATE))
SIX = (
    pairing("1", "Ash", "Dogwood"),
    pairing("2", "Birch", "Cedar"),
    pairing("3", "Dogwood", "Cedar", 2),
    pairing("4", "Ash", "Birch", 2),
    pairing("5", "Birch", "Dogwood", 3),
    pairing("6", "Cedar", "Ash", 3),
)
SEASON = question(SIX, USABLE, weeks=5)
Days = dict[str, int]


def rounds(days: Days, keep: tuple[str, ...] = ()) -> dict[str, int]:
    """Return the rounds of games that are played so many days after the first Monday."""
    placements = plan({game: at(day, EARLY) for game, day in days.items()})
    found = in_rounds(SEASON, placements, frozenset(map(GameId, keep)))
    return {str(game): one.round for game, one in found.items()}


@pytest.mark.parametrize(
    ("days", "expected"),
    [
        # The table's rounds 1, 2, 3 in the weeks 2, 3, 1.
        ((7, 7, 14, 14, 0, 0), (2, 2, 3, 3, 1, 1)),
        # A round on two nights of a week is one round: nobody plays twice.
        ((0, 2, 7, 9, 14, 16), (1, 1, 2, 2, 3, 3)),
        # Two games each in the first week: the second night is a round of its own.
        ((0, 0, 2, 2, 7, 7), (1, 1, 2, 2, 3, 3)),
        # Two games each on one night are of one round.
        ((0, 0, 0, 0, 7, 7), (1, 1, 1, 1, 2, 2)),
        # A week without a game, such as a holiday, is not counted.
        ((0, 0, 14, 14, 28, 28), (1, 1, 2, 2, 3, 3)),
        # Cedar and Dogwood have played by Wednesday, and play again on it: a round more.
        ((0, 2, 2, 7, 14, 14), (1, 2, 2, 3, 4, 4)),
    ],
)
def test_a_round_is_what_a_pool_plays_in_a_week(
    days: tuple[int, ...], expected: tuple[int, ...]
) -> None:
    names = [f"{number}" for number in range(1, 7)]
    assert rounds(dict(zip(names, days, strict=True))) == dict(
        zip(names, expected, strict=True)
    )


@pytest.mark.parametrize(
    ("moves_to", "expected"),
    [
        (0, 1),  # the night of round 1
        (2, 1),  # another night of its week
        (7, 2),  # the week that has no game any more: the next one
        (14, 3),  # a night of round 3, which keeps that though round 2 has no other game
        (21, 4),  # after all others
    ],
)
def test_a_game_that_moves_takes_the_round_of_the_week_it_moves_to(
    moves_to: int, expected: int
) -> None:
    days = {"1": 0, "2": 0, "3": moves_to, "4": moves_to, "5": 14, "6": 14}
    found = rounds(days, keep=("1", "2", "5", "6"))
    assert found == {"1": 1, "2": 1, "3": expected, "4": expected, "5": 3, "6": 3}


def test_a_game_between_two_rounds_that_follow_each_other_is_of_the_later_one() -> None:
    """The table after round 2 has been read; only the one after round 3 is still to come."""
    days = {"1": 0, "2": 0, "3": 7, "4": 14, "5": 21, "6": 21}
    found = rounds(days, keep=("1", "2", "3", "5", "6"))
    assert found == {"1": 1, "2": 1, "3": 2, "4": 3, "5": 3, "6": 3}


def test_each_pool_counts_its_own_weeks_and_play_offs_keep_their_round() -> None:
    other = pairing("7", "Elm", "Fir", 5, pool=PoolId("B"))
    final = pairing("F", Seeded(seed=1), Seeded(seed=2), 9, pool=None)
    problem = question((*SIX[:2], other, final), USABLE, weeks=5)
    where = {"1": at(0, EARLY), "2": at(7, EARLY), "7": at(14, EARLY), "F": at(28, EARLY)}
    found = in_rounds(problem, plan(where))
    assert [found[GameId(game)].round for game in ("1", "2", "7", "F")] == [1, 2, 1, 9]


def test_only_games_that_keep_their_start_and_field_keep_their_round() -> None:
    announced = plan({"1": at(0, EARLY), "2": at(0, MIDDLE), "3": at(7, EARLY)})
    problem = replace(question(SIX[:3], USABLE, weeks=5), announced=announced)
    now = plan({"1": at(0, EARLY), "2": at(0, MIDDLE, "F2"), "3": at(9, EARLY)})
    assert kept(problem, now) == {"1"}


POOL = tuple(TeamId(f"T{number}") for number in range(6))
WHOLE = question(pairings({PoolId("A"): POOL}), USABLE, weeks=5)
places = st.lists(st.sampled_from(DAYS), min_size=15, max_size=15)


@given(places, st.lists(st.tuples(st.integers(0, 14), st.sampled_from(DAYS)), max_size=5))
def test_no_game_is_of_an_earlier_round_than_one_on_an_earlier_night(
    days: list[int], moves: list[tuple[int, int]]
) -> None:
    """First as planned, and then once games have moved."""
    first = {f"{number}": day for number, day in enumerate(days, start=1)}
    planned = in_rounds(WHOLE, plan({game: at(day, EARLY) for game, day in first.items()}))
    assert_in_order({game: (first[game], planned[GameId(game)].round) for game in first})
    then = first | {f"{index + 1}": day for index, day in moves}
    keep = frozenset(GameId(game) for game in first if then[game] == first[game])
    announced = question(planned.values(), USABLE, weeks=5)
    mended = in_rounds(
        announced, plan({game: at(day, EARLY) for game, day in then.items()}), keep
    )
    assert {game: mended[game].round for game in keep} == {
        game: planned[game].round for game in keep
    }
    assert_in_order({game: (then[game], mended[GameId(game)].round) for game in then})


def assert_in_order(games: dict[str, tuple[int, int]]) -> None:
    for (day, number), (later, after) in pairwise(sorted(games.values())):
        assert number <= after
        assert day < later or number == after


def test_rounds_end_at_ninety_nine() -> None:
    nights = tuple(7 * week for week in range(101))
    two = tuple(pairing(f"{n}", "Ash", "Birch", 1) for n in range(101))
    problem = question(two, slots(nights, (EARLY,)), weeks=101)
    where: dict[str, tuple[Start, str]] = {
        f"{n}": at(day, EARLY) for n, day in enumerate(nights)
    }
    found = in_rounds(problem, plan(where))
    assert [found[GameId(f"{n}")].round for n in (0, 97, 98, 99, 100)] == [1, 98, 99, 99, 99]
