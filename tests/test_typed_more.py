"""What few scorecards hold is typed in a fold, and a slip is told beside its field, in plain words."""

import pytest

from cases.paper_cards import LEAGUE
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperGoal,
    PaperPlayer,
    PaperProtest,
    PaperYellow,
)
from wholeball.game.state import Score
from wholeball.kernel.faults import InputFaults
from wholeball.usecases.said_full_time import said_full_time
from wholeball.usecases.scorecard_sheet import asked
from wholeball.usecases.sheet_faults import refuse_unmeant
from wholeball.usecases.typed_scorecard import card_of

PLAYED = {"period_1": "2-1", "period_2": "0-1"}


def over(was: PaperCard, answers: dict[str, str]) -> PaperCard:
    return card_of(answers, rules=LEAGUE, was=was)


def typed(**answers: str) -> PaperCard:
    return over(PaperCard(), {**PLAYED, **answers})


def wrong(**answers: str) -> list[tuple[str | None, str]]:
    with pytest.raises(InputFaults) as refused:
        refuse_unmeant(typed(**answers), LEAGUE)
    return [(one.place.column, one.cure) for one in refused.value.faults]


def sheet(was: PaperCard) -> dict[str, str]:
    return {one.name: one.value for one in asked(LEAGUE, was, home="Ash", away="Birch")}


def test_a_captains_protest_is_typed_with_or_without_its_minute() -> None:
    card = typed(
        protest_home="rule_misapplied", protest_minute_home="31'", protest_away="eligibility"
    )
    assert card.protests == (
        PaperProtest(side="home", about="rule_misapplied", period=2, minute=9),
        PaperProtest(side="away", about="eligibility"),
    )


def test_a_protest_that_is_emptied_goes_and_a_minute_alone_is_asked_about() -> None:
    was = PaperCard(protests=(PaperProtest(side="home", about="eligibility"),))
    assert over(was, {**sheet(was), **PLAYED, "protest_home": ""}).protests == ()
    assert wrong(protest_minute_away="31") == [
        ("protest_away", "Say what it is about, or empty its minute.")
    ]


def test_scorers_are_typed_by_their_half() -> None:
    card = typed(scorers_1="h9\na4 12 pen\nh? own", scorers_2="a10 31")
    assert card.goals == (
        PaperGoal(side="home", period=1, number=9),
        PaperGoal(side="away", period=1, minute=12, number=4, penalty=True),
        PaperGoal(side="home", period=1, own=True),
        PaperGoal(side="away", period=2, minute=9, number=10),
    )
    assert over(card, {**sheet(card), **PLAYED}) == card


def test_a_scorer_that_cannot_be_read_is_told_at_its_half() -> None:
    assert wrong(scorers_1="a4 12 header", scorers_2="a10 12") == [
        (
            "scorers_1",
            (
                "Line 1: Give h or a, a number of at most two digits, the minute if it is known, and "
                "own or pen where it was, such as h9 pen."
            ),
        ),
        ("scorers_2", "Line 1: 12 is no minute of the second half."),
    ]


def test_one_scorer_more_than_goals_is_told_at_its_half() -> None:
    typed(scorers_1="a4\nh9\nh9")
    assert wrong(scorers_1="a4\na9") == [
        (
            "scorers_1",
            (
                "2 goals of the away side are listed, and 1 were made in the first half. Take one "
                "out, or mend the goals."
            ),
        )
    ]


def test_scorers_left_as_they_were_go_with_the_goals_taken_out() -> None:
    was = typed(scorers_1="h9\nh7")
    card = over(was, {**sheet(was), "period_1": "1-1", "period_2": "0-1"})
    assert card.goals == (PaperGoal(side="home", period=1, number=9),)


def test_who_played_is_numbers_on_a_line_and_names_on_their_own() -> None:
    card = typed(players_home="1, 7 9\nNoor Zephirou", players_away="Kealohana, Umaru=10")
    assert card.home_players == (
        PaperPlayer(1),
        PaperPlayer(7),
        PaperPlayer(9),
        PaperPlayer(None, "Noor Zephirou"),
    )
    assert card.away_players == (PaperPlayer(10, "Kealohana, Umaru"),)


def test_a_number_over_99_and_one_that_stands_twice_are_told() -> None:
    assert [name for name, _ in wrong(players_home="100")] == ["players_home"]
    assert wrong(players_away="7, 7") == [
        ("players_away", "7 stands there twice. Take one out.")
    ]


def test_the_list_says_whom_to_choose_and_no_letters() -> None:
    assert wrong(ended="f", why="left") == [("by", "Choose who forfeits.")]
    both = wrong(ended="d", by="b", in_time="y")
    assert both == [("by", "Choose the one side that defaults; both forfeit instead.")]


def test_both_may_be_to_blame_for_a_game_broken_off() -> None:
    card = typed(ended="b", by="b", why="disorder", minutes_left="4")
    assert card.broken_off == PaperBrokenOff(why="disorder", to_blame="both")
    refuse_unmeant(card, LEAGUE)


@pytest.mark.parametrize(
    ("answers", "name", "cure"),
    [
        (
            {"period_2": ""},
            "period_2",
            (
                "Fill in the goals of the second half, 0-0 where there were none; or open It did not "
                "end at full time, and say there how the game ended."
            ),
        ),
        (
            {"ended": "b", "why": "disorder"},
            "minutes_left",
            "Fill it in: the game ended before its time.",
        ),
        (
            {"ended": "b", "why": "disorder", "minutes_left": "23", "period_2": "0-0"},
            "minutes_left",
            "Give 0 to 22: what the clock of the last period still had.",
        ),
        (
            {"ended": "d", "by": "h", "in_time": "y"},
            "ended",
            "A game that a side defaulted has no goals: empty them, or choose a forfeit.",
        ),
        (
            {"ended": "m", "period_1": "", "period_2": ""},
            "period_1",
            "Fill it in: it is by its goals that the mercy rule ends a game.",
        ),
        (
            {"period_2": "", "ended": "m", "minutes_left": "0", "yellow": "h4 31 late"},
            "yellow",
            (
                "The minute of h4 is in the second half, which has no goals yet. Fill those in, or "
                "mend the minute."
            ),
        ),
        (
            {"ended": "b", "why": "weather", "minutes_left": "22"},
            "period_2",
            "0-1 is more goals than the time has room for: at most 0 goals.",
        ),
    ],
)
def test_what_cannot_be_meant_is_told_at_its_field_in_words_of_the_sheet(
    answers: dict[str, str], name: str, cure: str
) -> None:
    assert wrong(**answers) == [(name, cure)]


HIGH = PaperCard(periods=(Score(11, 0), Score(2, 0)))


def test_full_time_is_kept_as_typed_from_the_lead_on_that_ends_a_game() -> None:
    assert said_full_time(HIGH, LEAGUE).ended == "full_time"
    at_six = PaperCard(periods=(Score(6, 0), Score(0, 0)))
    at_five = PaperCard(periods=(Score(5, 0), Score(0, 0)))
    assert said_full_time(at_six, LEAGUE).ended == "full_time"
    assert said_full_time(at_five, LEAGUE) == at_five


@pytest.mark.parametrize("update", [{"ended": "mercy"}, {"periods": (Score(11, 0),)}])
def test_nothing_is_said_for_a_card_that_says_how_it_ended_or_has_no_second_half(
    update: dict[str, object],
) -> None:
    card = HIGH.model_copy(update=update)
    assert said_full_time(card, LEAGUE) == card


def test_a_minute_of_yellow_does_not_hide_who_was_shown_it() -> None:
    assert typed(yellow="h4 31 late").yellow == (
        PaperYellow(side="home", number=4, period=2, minute=9, reason="late"),
    )
