"""A game ends as its scorecard says: by mercy, a golden goal, kicks or a forfeit, or broken off."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.paper_cards import PLAY_OFF, played, scores, with_ladder
from wholeball.game import happenings as was
from wholeball.game.event import Moment
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperDefault,
    PaperForfeit,
    PaperKicks,
)
from wholeball.game.paper_entries import Told, told
from wholeball.game.state import Ending, Score


def test_mercy_whose_minute_is_known_ends_the_game_by_its_last_goal_in_that_minute() -> None:
    card = PaperCard(periods=scores((4, 0), (5, 0)), ended="mercy", minutes_left=6)
    state = played(card)
    assert state.ending == Ending(how="mercy", at=Moment(2, 960), article="mercy")
    assert (state.score, state.questions, state.goals[-1].at) == (
        Score(9, 0),
        (),
        Moment(2, 960),
    )


@given(st.integers(0, 8), st.integers(0, 12), st.integers(4, 7), st.sampled_from((1, -1)))
def test_mercy_by_a_goal_is_at_its_minute_whatever_the_score(
    half_time: int, of_the_loser: int, left: int, turned: int
) -> None:
    """The goal that makes a lead of nine, with eight to three minutes left, waits for them."""
    won = (half_time, of_the_loser), (9 + of_the_loser - half_time, 0)
    periods = tuple(Score(*one[::turned]) for one in won)
    state = played(PaperCard(periods=periods, ended="mercy", minutes_left=left))
    assert (state.ending and state.ending.how, state.ending and state.ending.at) == (
        "mercy",
        Moment(2, 1320 - 60 * left),
    )
    assert (state.by_period, state.questions) == (periods, ())


def test_mercy_at_the_minute_of_a_rung_needs_no_goal_then() -> None:
    card = PaperCard(periods=scores((9, 0), (1, 0)), ended="mercy", minutes_left=8)
    state = played(card)
    assert state.ending == Ending(how="mercy", at=Moment(2, 840), article="mercy")
    assert (state.score, state.questions) == (Score(10, 0), ())


def test_mercy_one_minute_before_the_ladder_is_asked_about() -> None:
    card = PaperCard(periods=scores((9, 0), (1, 0)), ended="mercy", minutes_left=9)
    assert [one.code for one in played(card).questions] == ["ended_early"]


def test_a_lead_of_ten_at_full_time_is_made_before_mercy_can_be_true() -> None:
    state = played(PaperCard(periods=scores((5, 0), (5, 0))))
    assert state.ending == Ending(how="mercy", at=Moment(2, 840), article="mercy")
    assert (state.score, state.played) == (Score(10, 0), Score(10, 0))


def test_a_game_that_went_on_after_mercy_at_any_time_is_asked_about() -> None:
    rules = with_ladder("[{ lead = 3, minutes_left = 44 }]")
    state = played(PaperCard(periods=scores((3, 0), (0, 1))), rules)
    assert [one.code for one in state.questions] == ["period_order", "mercy"]
    assert (state.score, state.played) == (Score(3, 0), Score(3, 1))


def test_the_golden_goal_ends_overtime_at_its_clock() -> None:
    card = PaperCard(periods=scores((1, 1), (0, 0)), overtime=scores((0, 1)))
    state = played(card, PLAY_OFF)
    assert state.ending == Ending(how="golden_goal", at=Moment(3, 140), article="overtime")
    assert (state.by_period, state.winner, state.questions) == (
        scores((1, 1), (0, 0), (0, 1)),
        "away",
        (),
    )


def test_kicks_are_taken_in_turn_and_decide_a_level_game() -> None:
    card = PaperCard(
        periods=scores((1, 1), (0, 0)),
        overtime=scores((0, 0)),
        kicks=PaperKicks(first="away", home="ooo", away="o-x", home_numbers=(4, 5, 6)),
    )
    state = played(card, PLAY_OFF)
    assert state.kicks is not None
    assert (state.kicks.first, state.kicks.scored, state.kicks.taken) == (
        "away",
        Score(3, 1),
        Score(3, 3),
    )
    assert (state.winner, state.questions) == ("home", ())
    assert told(card, PLAY_OFF)[-2:] == (
        Told(Moment(9, 5), was.KickTaken(side="away", scored=False)),
        Told(Moment(9, 6), was.KickTaken(side="home", number=6, scored=True)),
    )


def test_kicks_of_a_league_game_are_kept_and_asked_about() -> None:
    card = PaperCard(
        periods=scores((1, 1), (0, 0)), kicks=PaperKicks(first="home", home="o", away="x")
    )
    state = played(card)
    assert [one.code for one in state.questions] == ["not_in_rulebook"] * 2


def test_a_forfeit_before_the_game_gives_its_score() -> None:
    state = played(PaperCard(forfeit=PaperForfeit(by="away", why="too_few")))
    assert (state.ending, state.result, state.questions) == (
        Ending(how="forfeit", at=Moment(0, 0), article="forfeit", by="away"),
        Score(4, 0),
        (),
    )


def test_a_forfeit_on_the_field_stands_in_the_period_that_it_cut() -> None:
    card = PaperCard(
        periods=scores((1, 0), (0, 1)),
        minutes_left=10,
        forfeit=PaperForfeit(by="home", why="left"),
    )
    state = played(card)
    assert (state.by_period, state.ending, state.questions) == (
        scores((1, 0), (0, 1)),
        Ending(how="forfeit", at=Moment(2, 720), article="forfeit", by="home"),
        (),
    )


def test_a_default_is_one() -> None:
    state = played(PaperCard(default=PaperDefault(by="home", in_time=True)))
    assert state.ending == Ending(
        how="default", at=Moment(0, 0), article="forfeit.default", by="home"
    )


@pytest.mark.parametrize(
    ("periods", "left", "how"),
    [
        (scores((1, 0)), 1, None),
        (scores((1, 0)), 0, "complete"),
        (scores((1, 0), (0, 0)), 22, "complete"),
    ],
)
def test_a_game_broken_off_is_complete_from_half_time_on(
    periods: tuple[Score, ...], left: int, how: str | None
) -> None:
    card = PaperCard(
        periods=periods, minutes_left=left, broken_off=PaperBrokenOff(why="weather")
    )
    state = played(card)
    assert (state.ending.how if state.ending else None, state.by_period) == (how, periods)
