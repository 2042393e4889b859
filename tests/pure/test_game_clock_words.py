"""Moments and periods of a game are told as the clock and people count them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.told_games import START, TO, eights, event, told
from wholeball.game.event import BEFORE, KICKS, Moment
from wholeball.game.happenings import (
    Cautioned,
    Goal,
    GotReady,
    PeriodStarted,
    ShortAtStart,
)
from wholeball.reports.game_happened import happened
from wholeball.reports.game_told import minute, minutes, period_name, when
from wholeball.reports.game_words import game_words


@pytest.mark.parametrize(
    ("counts", "clock", "words", "shown"),
    [
        ("up", 0, "in the second half at 0:00, minute 23", "23"),
        ("up", 59, "in the second half at 0:59, minute 23", "23"),
        ("up", 60, "in the second half at 1:00, minute 24", "24"),
        ("down", 0, "in the second half with 22:00 left, minute 23", "23"),
        ("down", 1319, "in the second half with 0:01 left, minute 44", "44"),
        ("down", 1320, "at the end of the second half", "44+1"),
        ("up", 1320, "at the end of the second half", "44+1"),
        ("up", 1385, "1:05 past the end of the second half, minute 44+2", "44+2"),
    ],
)
def test_a_moment_is_told_as_the_clock_counts(
    counts: str, clock: int, words: str, shown: str
) -> None:
    rules = eights(game={"counts": counts})
    game = told([], rules)
    assert when(game, Moment(2, clock)) == words
    assert minute(game, Moment(2, clock)) == shown


def test_a_first_half_shortened_by_a_wait_is_told_as_long_as_it_was() -> None:
    grace = {"minutes": 10, "chosen_by": "always_waited", "final": True, "clock_runs": True}
    forfeit = eights().book.forfeit.model_dump()
    rules = eights(forfeit={"grace": {**forfeit["grace"], **grace}})
    game = told(
        [
            event("short", 0, 0, ShortAtStart(side="away", present=4)),
            event("ready", 0, 300, GotReady(side="away")),
            event("s", 1, 0, PeriodStarted()),
            event("g", 1, 60, Goal(side="home", number=3)),
        ],
        rules,
    )
    assert [(row.shown_when, str(row.says)) for row in happened(game)] == [
        (
            "At the scheduled start",
            "Ninth Floor is short at the scheduled start, with 4 players.",
        ),
        ("At the scheduled start", "Ninth Floor is waited for, up to 10 minutes."),
        ("5:00 after the scheduled start", "Ninth Floor is ready."),
        ("In the first half with 17:00 left, minute 1", "The period begins."),
        (
            "In the first half with 17:00 left, minute 1",
            "The first half is shorter by the time that was waited.",
        ),
        (
            "In the first half with 16:00 left, minute 2",
            f"Goal by number 3 of Salt and Static: 1{TO}0.",
        ),
    ]
    assert minute(game, Moment(2, 0)) == "18"


def test_a_player_off_for_minutes_is_told_until_when() -> None:
    cautioned = {"comes_off": "for_minutes", "minutes": 5, "may_be_replaced": False}
    cards = eights().book.cards.model_dump()
    rules = eights(cards={"cautioned": {**cards["cautioned"], **cautioned}})
    game = told([START, event("y", 1, 60, Cautioned(side="home", number=4))], rules)
    assert [str(one) for one in game_words(game).off] == [
        "Number 4 of Salt and Static is off after yellow, until 16:00 is left in the first half."
    ]


@pytest.mark.parametrize(
    ("periods", "period", "name"),
    [
        (1, 1, "game"),
        (2, 2, "second half"),
        (3, 3, "third period"),
        (4, 4, "fourth quarter"),
        (2, 3, "first period of overtime"),
        (2, BEFORE, "before kick-off"),
        (2, KICKS, "kicks from the mark"),
    ],
)
def test_a_period_has_the_name_that_people_give_it(
    periods: int, period: int, name: str
) -> None:
    rules = eights("play_off", game={"periods": periods})
    assert period_name(rules, period) == name


@pytest.mark.parametrize(
    ("counts", "at", "says"),
    [
        ("up", Moment(1, 0), "in the first half at 0:00, minute 1"),
        ("up", Moment(1, -1), "0:01 before the first half"),
        ("up", Moment(2, -61), "1:01 before the second half"),
        ("down", Moment(2, -1), "0:01 before the second half"),
        ("down", Moment(2, 0), "in the second half with 22:00 left, minute 23"),
        ("up", Moment(KICKS, 1), "at kick 1 from the mark"),
        ("up", Moment(KICKS, 0), "in kicks from the mark"),
        ("up", Moment(KICKS, -1), "in kicks from the mark"),
    ],
)
def test_a_clock_before_a_period_is_told_as_time_before_it(
    counts: str, at: Moment, says: str
) -> None:
    game = told([START], eights(game={"counts": counts}))
    assert when(game, at) == says


def test_the_minute_of_a_clock_before_a_period_is_its_first() -> None:
    game = told([START])
    assert [minute(game, Moment(2, clock)) for clock in (-86_400, -1, 0, 59, 60)] == [
        "23",
        "23",
        "23",
        "23",
        "24",
    ]


@given(st.integers(-86_400, 86_400))
def test_seconds_read_as_a_clock_give_those_seconds_again(seconds: int) -> None:
    sign, whole = (-1, minutes(seconds)[1:]) if seconds < 0 else (1, minutes(seconds))
    high, low = whole.split(":")
    assert (sign * (60 * int(high) + int(low)), len(low)) == (seconds, 2)
