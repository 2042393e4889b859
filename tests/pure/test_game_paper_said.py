"""What a scorecard says of itself stands: that it went to its time, and a captain's protest."""

from dataclasses import replace

import pytest

from cases.paper_cards import LEAGUE, events_of, played
from wholeball.game.event import Moment
from wholeball.game.paper import PaperBrokenOff, PaperCard, PaperProtest, PaperRefusal
from wholeball.game.paper_back import card_back
from wholeball.game.paper_checks import misfits
from wholeball.game.paper_entries import told
from wholeball.game.state import Score
from wholeball.kernel.identity import GameId
from wholeball.reports.game_told import ToldGame, standing
from wholeball.reports.game_words import game_words
from wholeball.reports.timeline import timeline

HIGH = PaperCard(periods=(Score(11, 0), Score(2, 0)))
WHOLE = HIGH.model_copy(update={"ended": "full_time"})


def as_told(card: PaperCard) -> ToldGame:
    events = events_of(told(card, LEAGUE))
    return ToldGame(
        game=GameId("1"),
        home="Ash",
        away="Birch",
        rules=LEAGUE,
        state=played(card),
        events=standing(events),
        reader="officials",
    )


def test_a_card_that_says_full_time_stands_so_and_asks_about_the_mercy_rule() -> None:
    state = played(WHOLE)
    assert state.ending is not None
    assert (state.ending.how, state.ending.at, state.result) == (
        "full_time",
        Moment(2, 1320),
        Score(13, 0),
    )
    assert [(one.code, one.at) for one in state.open_questions] == [
        ("played_on", Moment(2, 840))
    ]


def test_the_question_names_the_moment_and_the_lead() -> None:
    [asked] = game_words(as_told(WHOLE)).questions
    assert str(asked.says) == (
        "The scorecard says that the game was played to its time. By the mercy rule it would have "
        "ended in the second half, about minute 37, at a lead of 13 goals; if it did, mend how it "
        "ended."
    )
    assert asked.answers == ("It stays as it is.",)


def test_a_card_that_leaves_it_open_ends_by_the_mercy_rule_as_it_always_did() -> None:
    state = played(HIGH)
    assert state.ending is not None
    assert (state.ending.how, state.ending.at) == ("mercy", Moment(2, 840))
    assert state.open_questions == ()
    lines = [one.what.model_dump() for one in events_of(told(HIGH, LEAGUE))]
    assert all("whole" not in line for line in lines)


@pytest.mark.parametrize(
    ("card", "foot"),
    [(HIGH, "about 14:00 played, 13\u20130"), (WHOLE, "22:00 played, 13\u20130")],
)
def test_the_picture_has_played_as_long_as_the_game_is_said_to_have(
    card: PaperCard, foot: str
) -> None:
    assert timeline(as_told(card)).stretches[-1].foot == foot


def test_no_period_ends_on_paper_after_the_mercy_rule_had_ended_the_game() -> None:
    says = [str(one.says) for one in game_words(as_told(HIGH)).happened]
    assert (says.count("The period ends."), "The mercy rule" in says[-1]) == (1, True)


@pytest.mark.parametrize(
    "card",
    [
        WHOLE,
        HIGH.model_copy(update={"protests": (PaperProtest(side="away", about="eligibility"),)}),
        PaperCard(
            periods=(Score(1, 0), Score(0, 0)),
            protests=(
                PaperProtest(side="home", about="rule_misapplied", period=2, minute=9),
                PaperProtest(side="away", about="judgement", by="player"),
            ),
        ),
        PaperCard(
            periods=(Score(1, 1), Score(0, 0)),
            broken_off=PaperBrokenOff(why="disorder", to_blame="both"),
            minutes_left=4,
        ),
    ],
)
def test_what_a_card_says_is_read_back_from_its_entries(card: PaperCard) -> None:
    back = card_back(events_of(told(card, LEAGUE)), LEAGUE)
    assert back.model_copy(update={"ended": card.ended}) == card
    assert back.ended in (card.ended, "mercy")


def test_a_protest_without_a_minute_is_told_without_one_and_without_a_score() -> None:
    card = PaperCard(
        periods=(Score(1, 0), Score(0, 0)),
        protests=(
            PaperProtest(side="home", about="rule_misapplied", period=2, minute=9),
            PaperProtest(side="away", about="eligibility"),
        ),
    )
    words = game_words(as_told(card))
    assert [str(one) for one in words.protests] == [
        (
            "Ash protests against a rule that was misapplied, in the second half at 8:00, "
            "minute 31, at 1\u20130."
        ),
        "Birch protests against a player's eligibility, minute not written down.",
    ]
    assert "Birch protests against a player's eligibility." in map(
        str, (one.says for one in words.happened)
    )


def test_a_protest_in_a_period_that_was_not_played_is_a_slip() -> None:
    card = PaperCard(
        periods=(Score(1, 0), Score(0, 0)),
        protests=(PaperProtest(side="home", about="eligibility", period=3, minute=1),),
    )
    assert [one.loc for one in misfits(card, LEAGUE)] == [("protests", 0, "period")]


def test_both_to_blame_is_nobodys_win_and_says_so() -> None:
    card = PaperCard(
        periods=(Score(1, 1), Score(0, 0)),
        broken_off=PaperBrokenOff(why="disorder", to_blame="both"),
        minutes_left=4,
    )
    words = game_words(as_told(card))
    assert "It was broken off by both sides, and the coordinator decides" in str(
        words.stands[1]
    )
    assert played(card).result is None


def test_a_captain_who_would_not_sign_is_quoted_to_officials_alone() -> None:
    card = PaperCard(
        periods=(Score(1, 0), Score(0, 0)),
        refused=(PaperRefusal(by="away_captain", reason="Not our goal."),),
    )
    game = as_told(card)
    [asked] = game_words(game).questions
    assert str(asked.says) == "The away captain refused to sign the scorecard: Not our goal."
    [asked] = game_words(replace(game, reader="everybody")).questions
    assert str(asked.says) == "The away captain refused to sign the scorecard."
