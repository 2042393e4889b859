"""A scorecard that was entered is read back from its entries: it says the same again."""

from decimal import Decimal

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cases.paper_cards import LEAGUE, PLAY_OFF, cards, events_of, odd_cards, ordinary
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
from wholeball.game.paper_back import card_back
from wholeball.game.paper_checks import misfits
from wholeball.game.paper_entries import difference, standing, told
from wholeball.game.rules import GameRules
from wholeball.game.state import Score


def _back(card: PaperCard, rules: GameRules = LEAGUE) -> PaperCard:
    return card_back(standing(events_of(told(card, rules))), rules)


def test_an_ordinary_card_comes_back_as_it_was() -> None:
    assert _back(ordinary()) == ordinary()


def test_nothing_entered_is_an_empty_card() -> None:
    assert card_back((), LEAGUE) == PaperCard()


def test_a_card_of_every_kind_of_key_comes_back_as_it_was() -> None:
    card = PaperCard(
        periods=(Score(2, 1), Score(0, 1)),
        overtime=(Score(0, 0),),
        goals=(
            PaperGoal(side="home", period=1, minute=12, number=9),
            PaperGoal(side="home", period=1, number=4, penalty=True),
            PaperGoal(side="away", period=2, number=3, own=True),
        ),
        kicks=PaperKicks(
            first="away", home="ox", away="oo", home_numbers=(7, 9), away_numbers=(4, 10)
        ),
        yellow=(PaperYellow(side="home", number=7, reason="dissent", period=1, minute=12),),
        red=(PaperRed(side="away", to="team_official", reason="shouts", second_yellow=True),),
        ratings=(
            PaperRating(side="home", value=Decimal(4)),
            PaperRating(side="away", by="second_official", value=Decimal(2), reason="late"),
        ),
        signed=("home_captain", "official"),
        refused=(PaperRefusal(by="away_captain", reason="not our goal"),),
        note="Cold.\nWet.",
    )
    assert _back(card, PLAY_OFF) == card


def test_each_way_to_end_comes_back_with_the_minutes_left() -> None:
    for card in (
        PaperCard(periods=(Score(9, 0), Score(0, 0)), ended="mercy", minutes_left=6),
        PaperCard(periods=(Score(9, 0), Score(0, 0)), ended="mercy"),
        PaperCard(
            periods=(Score(1, 0),), broken_off=PaperBrokenOff(why="lights"), minutes_left=0
        ),
        PaperCard(
            periods=(Score(1, 0),), forfeit=PaperForfeit(by="both", why="left"), minutes_left=10
        ),
        PaperCard(forfeit=PaperForfeit(by="away", why="too_few")),
        PaperCard(default=PaperDefault(by="home", in_time=True)),
        PaperCard(broken_off=PaperBrokenOff(why="disorder", to_blame="home")),
    ):
        assert _back(card) == card


def test_scorers_without_a_minute_come_back_in_the_order_of_the_card() -> None:
    goals = tuple(PaperGoal(side="home", period=1, number=number) for number in (9, 7, 4, 9))
    card = PaperCard(periods=(Score(6, 2), Score(0, 0)), goals=goals)
    assert _back(card).goals == goals


@pytest.mark.parametrize(
    ("away", "left", "minute"), [(1, 0, None), (3, 1, 23)], ids=["none left", "a late goal"]
)
def test_mercy_at_full_time_that_no_ladder_brings_leaves_the_goals_where_they_were(
    away: int, left: int, minute: int | None
) -> None:
    late = () if minute is None else (PaperGoal(side="away", period=2, minute=minute),)
    card = PaperCard(
        periods=(Score(0, 0), Score(0, away)), ended="mercy", minutes_left=left, goals=late
    )
    assert misfits(card, LEAGUE) == ()
    stands = standing(events_of(told(card, LEAGUE)))
    assert card_back(stands, LEAGUE) == card


@settings(max_examples=150, deadline=None)
@given(cards() | odd_cards(), st.sampled_from((LEAGUE, PLAY_OFF)))
def test_a_card_read_back_changes_nothing(card: PaperCard, rules: GameRules) -> None:
    assume(not misfits(card, rules))
    stands = standing(events_of(told(card, rules)))
    changed = difference(stands, told(card_back(stands, rules), rules))
    assert (changed.gone, changed.new) == ((), ())
