"""A scorecard is typed over what was entered: Enter keeps an answer, and what no answer says."""

from decimal import Decimal

import pytest

from cases.paper_cards import PLAY_OFF
from cases.typed_answers import typed_card
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperDefault,
    PaperForfeit,
    PaperGoal,
    PaperKicks,
    PaperRating,
    PaperRed,
    PaperRefusal,
    PaperYellow,
)
from wholeball.game.state import Score

FILED = PaperCard(
    periods=(Score(1, 1), Score(2, 1)),
    goals=(
        PaperGoal(side="home", period=1, minute=12, number=9),
        PaperGoal(side="home", period=2, number=4),
        PaperGoal(side="away", period=2, minute=3, number=8, penalty=True),
    ),
    yellow=(
        PaperYellow(side="home", number=7, reason="dissent", period=1, minute=12),
        PaperYellow(side="away", to="team_official", reason="shouts"),
    ),
    red=(PaperRed(side="away", number=10, reason="spits"),),
    ratings=(
        PaperRating(side="home", value=Decimal(4)),
        PaperRating(side="away", value=Decimal(2), reason="late and loud"),
        PaperRating(side="home", by="second_official", value=Decimal(5)),
    ),
    signed=("home_captain", "official"),
    refused=(PaperRefusal(by="away_captain", reason="not our goal"),),
    note="Cold.\nWet.",
)
"""A card of a file: it has what no answer says."""


def test_enter_alone_keeps_all_that_was_entered() -> None:
    card, person = typed_card("\n" * 15, was=FILED)
    assert card == FILED
    assert person.asked == [
        "First half, goals of it alone [1-1]: ",
        "Second half, goals of it alone [2-1]: ",
        (
            "How it ended, m mercy, f forfeit, d default (a forfeit announced beforehand), "
            "b broken off [full time]: "
        ),
        "Yellow 1, minute 12 of the first half [h7 dissent]: ",
        "Yellow 2, team official [a? shouts]: ",
        "Yellow, the next [no more]: ",
        "Red 1 [a10 spits]: ",
        "Red, the next [no more]: ",
        "Rating of Ash, 1 to 5 by 1 [4]: ",
        "Rating of Birch, 1 to 5 by 1 [2]: ",
        "Reason [late and loud]: ",
        (
            "Signed, letters: h and a captains, o official, s scorekeeper, u supervisor; "
            "r where somebody refused [hor]: "
        ),
        "Refused, letters of h, a, o, s and u [a]: ",
        "Why the away captain refused [not our goal]: ",
        "Note, at most 2,000 characters [Cold. Wet.]: ",
    ]


def test_a_lone_dash_takes_an_answer_out() -> None:
    card, _ = typed_card("\n\n\n-\n\n\n-\n\n-\n\n\n-\n-\n", was=FILED)
    assert (card.yellow, card.red, card.ratings, card.signed, card.refused, card.note) == (
        FILED.yellow[1:],
        (),
        FILED.ratings[1:],
        (),
        (),
        "",
    )


def test_one_digit_mended_keeps_the_scorers_and_minutes_of_the_rest() -> None:
    card, person = typed_card("\n3-1\n" + "\n" * 13, was=FILED)
    assert card == FILED.model_copy(update={"periods": (Score(1, 1), Score(3, 1))})
    assert person.told == []


def test_goals_taken_out_take_their_scorers_along_and_it_is_said() -> None:
    card, person = typed_card("0-1\n" + "\n" * 14, was=FILED)
    assert (card.goals, person.told) == (
        FILED.goals[1:],
        ["  1 of the scorers that the card had go with the goals taken out."],
    )


def test_another_reason_keeps_the_minute_and_another_number_does_not() -> None:
    yellow = FILED.yellow[0]
    card, _ = typed_card("\n\n\nh7 trip\n" + "\n" * 11, was=FILED)
    assert card.yellow[0] == yellow.model_copy(update={"reason": "trip"})
    card, _ = typed_card("\n\n\nh8 dissent\n" + "\n" * 11, was=FILED)
    assert card.yellow[0] == PaperYellow(side="home", number=8, reason="dissent")


@pytest.mark.parametrize(
    ("was", "count"),
    [
        (PaperCard(forfeit=PaperForfeit(by="both", why="left"), periods=(Score(1, 0),)), 10),
        (PaperCard(default=PaperDefault(by="away", in_time=False)), 8),
        (
            PaperCard(
                periods=(Score(1, 0),),
                broken_off=PaperBrokenOff(why="disorder", to_blame="home"),
                minutes_left=3,
            ),
            12,
        ),
        (
            PaperCard(periods=(Score(9, 0), Score(0, 0)), ended="mercy", minutes_left=6),
            10,
        ),
    ],
)
def test_enter_alone_keeps_how_the_game_ended(was: PaperCard, count: int) -> None:
    card, _ = typed_card("\n" * count, was=was)
    assert card == was


KICKED = PaperCard(
    periods=(Score(1, 1), Score(0, 0)),
    overtime=(Score(0, 0),),
    kicks=PaperKicks(
        first="away", home="ox-", away="ooo", home_numbers=(7, 9, 4), away_numbers=(1, 2, 3)
    ),
)


def test_overtime_and_kicks_that_were_entered_stand_in_brackets() -> None:
    _, person = typed_card("\n" * 13, PLAY_OFF, was=KICKED)
    assert person.asked[2:6] == [
        "Overtime, goals of it alone [0-0]: ",
        "Kicks, who kicked first, h or a [a]: ",
        "Kicks of Ash, a letter a kick (o scored, x not, - not taken) [ox-]: ",
        "Kicks of Birch, a letter a kick (o scored, x not, - not taken) [ooo]: ",
    ]


def test_enter_alone_keeps_kicks_and_who_took_them() -> None:
    assert typed_card("\n" * 13, PLAY_OFF, was=KICKED)[0] == KICKED
    card, _ = typed_card("\n\n\n\n\nooxo\n" + "\n" * 7, PLAY_OFF, was=KICKED)
    assert card.kicks == PaperKicks(
        first="away", home="ox-", away="ooxo", home_numbers=(7, 9, 4)
    )
    card, _ = typed_card("\n\n\n-\n" + "\n" * 7, PLAY_OFF, was=KICKED)
    assert card.kicks is None
