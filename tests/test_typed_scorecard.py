"""A scorecard is typed in on one sheet; the terminal's dialogue makes the same card of the same paper."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.paper_cards import LEAGUE, PLAY_OFF, ordinary
from wholeball.cli.scorecard_dialogue import Dialogue
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperDefault,
    PaperForfeit,
    PaperGoal,
    PaperKicks,
    PaperPlayer,
    PaperProtest,
    PaperRating,
    PaperRed,
    PaperRefusal,
    PaperResumed,
    PaperYellow,
)
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.kernel.faults import InputFaults
from wholeball.usecases.scorecard_sheet import asked
from wholeball.usecases.typed_scorecard import card_of

ORDINARY = {
    "period_1": "1-1",
    "period_2": "2-1",
    "yellow": "h7 dissent\na10 trip",
    "rating_official_home": "4",
    "rating_official_away": "5",
    "signed": "hao",
}
NOTHING = PaperCard()


def typed(
    answers: dict[str, str], rules: GameRules = LEAGUE, was: PaperCard = NOTHING
) -> PaperCard:
    return card_of(answers, rules=rules, was=was)


def wrong(answers: dict[str, str], rules: GameRules = LEAGUE) -> list[tuple[str | None, str]]:
    """Return each answer that cannot be read, with what can."""
    with pytest.raises(InputFaults) as refused:
        typed(answers, rules)
    return [(one.place.column, one.cure) for one in refused.value.faults]


def sheet(rules: GameRules, was: PaperCard) -> dict[str, str]:
    """Return the answers that stand on a sheet before anybody types."""
    return {one.name: one.value for one in asked(rules, was, home="Ash", away="Birch")}


def test_an_ordinary_card_takes_six_answers_of_30_characters() -> None:
    assert typed(ORDINARY) == ordinary()
    assert (len(ORDINARY), sum(map(len, ORDINARY.values()))) == (6, 30)


def test_the_sheet_asks_in_the_order_of_the_terminal_and_then_for_more() -> None:
    sheet = asked(LEAGUE, NOTHING, home="Ash", away="Birch")
    assert [one.name for one in sheet if one.part == "more"] == [
        "protest_home",
        "protest_minute_home",
        "protest_away",
        "protest_minute_away",
        "scorers_1",
        "scorers_2",
        "players_home",
        "players_away",
    ]
    names = [one.name for one in sheet[:-8]]
    assert names == [
        "period_1",
        "period_2",
        "ended",
        "by",
        "why",
        "in_time",
        "minutes_left",
        "yellow",
        "red",
        "rating_official_home",
        "reason_official_home",
        "rating_official_away",
        "reason_official_away",
        "signed",
        "refused",
        "note",
    ]


@pytest.mark.parametrize(
    ("lines", "answers", "rules"),
    [
        ("1-1\n2-1\n\nh7 dissent\na10 trip\n\n\n4\n5\nhao\n\n", ORDINARY, LEAGUE),
        (
            "0-0\n\nb\n1\n12\n\n\n4\n4\no\nDark clouds.\n",
            {
                "period_1": "0-0",
                "ended": "b",
                "why": "weather",
                "minutes_left": "12",
                "rating_official_home": "4",
                "rating_official_away": "4",
                "signed": "o",
                "note": "Dark clouds.",
            },
            LEAGUE,
        ),
        (
            "\nd\na\ny\n\n\nu\n\n",
            {"ended": "d", "by": "a", "in_time": "y", "signed": "u"},
            LEAGUE,
        ),
    ],
)
def test_the_terminal_makes_the_same_card_of_the_same_answers(
    lines: str, answers: dict[str, str], rules: GameRules
) -> None:
    left = lines.split("\n")[:-1]
    dialogue = Dialogue(
        ask=lambda _: left.pop(0), tell=print, home="Ash", away="Birch", rules=rules
    )
    assert (typed(answers, rules), left) == (dialogue.card(), [])


FULL = PaperCard(
    periods=(Score(1, 0), Score(0, 1)),
    overtime=(Score(0, 0),),
    kicks=PaperKicks(
        first="away", home="oox", away="ooo", home_numbers=(1, 2, 3), away_numbers=(4, 5, 6)
    ),
    goals=(PaperGoal(side="home", period=1, minute=9, number=7),),
    yellow=(
        PaperYellow(side="home", number=7, reason="dissent", period=1, minute=12),
        PaperYellow(side="away", reason="trip"),
    ),
    red=(PaperRed(side="away", number=10, reason="a kick", to="substitute"),),
    ratings=(
        PaperRating(side="home", value=Decimal(4)),
        PaperRating(side="away", value=Decimal(2), reason="Dissent all along."),
        PaperRating(side="away", value=Decimal(3), by="second_official"),
    ),
    signed=("home_captain", "official"),
    refused=(PaperRefusal(by="away_captain", reason="Said it was over."),),
    home_players=(PaperPlayer(None, "Noor Zephirou"), PaperPlayer(7)),
    away_players=(PaperPlayer(9, "Umaru Kealohana"),),
    protests=(
        PaperProtest(side="away", about="eligibility", by="player"),
        PaperProtest(side="home", about="rule_misapplied", period=2, minute=3),
        PaperProtest(side="home", about="judgement"),
    ),
    note="Wind.\nRain.",
)


@pytest.mark.parametrize(
    ("card", "rules"),
    [
        (NOTHING, LEAGUE),
        (ordinary(), LEAGUE),
        (FULL, PLAY_OFF),
        (PaperCard(forfeit=PaperForfeit(by="both", why="not_ready")), LEAGUE),
        (PaperCard(default=PaperDefault(by="away", in_time=False)), LEAGUE),
        (
            PaperCard(
                periods=(Score(2, 0),),
                broken_off=PaperBrokenOff(why="disorder", to_blame="home"),
                minutes_left=4,
            ),
            LEAGUE,
        ),
        (
            PaperCard(
                periods=(Score(1, 1), Score(0, 0)),
                broken_off=PaperBrokenOff(why="disorder", to_blame="both"),
                minutes_left=4,
            ),
            LEAGUE,
        ),
        (PaperCard(periods=(Score(9, 0),), ended="mercy", minutes_left=8), LEAGUE),
    ],
)
def test_a_sheet_that_is_sent_as_it_stands_changes_nothing(
    card: PaperCard, rules: GameRules
) -> None:
    assert typed(sheet(rules, card), rules, card) == card


scores = st.builds(Score, st.integers(0, 99), st.integers(0, 99))
shown = st.builds(
    PaperYellow,
    side=st.sampled_from(["home", "away"]),
    number=st.none() | st.integers(0, 99),
    reason=st.text("abcdefgh", max_size=20),
)


@given(st.tuples(scores, scores), st.lists(shown, max_size=6).map(tuple))
def test_whatever_stands_on_a_sheet_is_read_back(
    periods: tuple[Score, Score], yellow: tuple[PaperYellow, ...]
) -> None:
    card = PaperCard(periods=periods, yellow=yellow)
    assert typed(sheet(LEAGUE, card), was=card) == card


def test_an_answer_that_is_emptied_is_taken_out() -> None:
    assert typed({**sheet(LEAGUE, ordinary()), "yellow": ""}, was=ordinary()) == (
        ordinary().model_copy(update={"yellow": ()})
    )


def test_a_yellow_taken_out_leaves_the_minute_of_the_next_where_it_is() -> None:
    first, second = (
        PaperYellow(side="home", number=number, reason="late", period=2, minute=number)
        for number in (4, 9)
    )
    was = PaperCard(periods=(Score(0, 0), Score(0, 0)), yellow=(first, second))
    assert typed({**sheet(LEAGUE, was), "yellow": "h9 31 late"}, was=was).yellow == (second,)


def test_every_answer_that_cannot_be_read_is_told_at_once() -> None:
    answers = {
        "period_1": "2:x",
        "yellow": "h7 dissent\nq9 what",
        "rating_official_home": "\u0664",
        "signed": "z",
        "refused": "ha both",
    }
    assert wrong(answers) == [
        ("period_1", "Give two numbers, home first, such as 2-1."),
        ("yellow", "Line 2: Give h or a, a number of at most two digits, and a reason."),
        ("rating_official_home", "Give a number, such as 4, or nothing."),
        (
            "signed",
            "Give letters of h, a, o, s and u, such as hao; who refused goes into the next field.",
        ),
        ("refused", "Line 1: Give one letter and the reason, such as a did not agree."),
    ]


def test_a_refusal_among_who_signed_is_told_and_not_lost() -> None:
    assert wrong({"signed": "hr"}) == [
        (
            "signed",
            "Give letters of h, a, o, s and u, such as hao; who refused goes into the next field.",
        )
    ]


def test_goals_of_the_second_half_alone_ask_for_the_first() -> None:
    assert wrong({"period_2": "1-0"}) == [("period_1", "Fill it in: a later period has goals.")]


def test_a_half_that_cannot_be_read_is_told_once() -> None:
    assert wrong({"period_1": "two", "period_2": "1-0"}) == [
        ("period_1", "Give two numbers, home first, such as 2-1.")
    ]


def test_sixty_kicks_are_read_and_sixty_one_are_not() -> None:
    kicks = {"period_1": "0-0", "period_2": "0-0", "kicks_first": "h", "kicks_away": "x"}
    made = typed({**kicks, "kicks_home": "o" * 60}, PLAY_OFF).kicks
    assert made == PaperKicks(first="home", home="o" * 60, away="x")
    assert wrong({**kicks, "kicks_home": "o" * 61}, PLAY_OFF) == [
        ("kicks_home", "It has 61 kicks; at most 60 are kept.")
    ]


def test_a_hundred_lines_are_read_and_a_hundred_and_one_are_not() -> None:
    assert len(typed({**ORDINARY, "yellow": "h7\n" * 100}).yellow) == 100
    assert wrong({**ORDINARY, "yellow": "h7\n" * 101}) == [
        ("yellow", "It has 101 lines; at most 100 are read.")
    ]


def test_half_a_sign_in_the_note_is_refused() -> None:
    assert [name for name, _ in wrong({**ORDINARY, "note": "a \ud800 b"})] == ["note"]


STOPPED = PaperResumed(why="lights", period=2, minutes_left=14)


def test_the_sheet_asks_for_the_day_of_a_resumption_where_there_was_one() -> None:
    assert "resumed_on" not in sheet(LEAGUE, NOTHING)
    assert sheet(LEAGUE, PaperCard(resumed=STOPPED))["resumed_on"] == ""
    on = STOPPED.model_copy(update={"on": date(2026, 9, 20)})
    assert sheet(LEAGUE, PaperCard(resumed=on))["resumed_on"] == "2026-09-20"


@pytest.mark.parametrize(
    ("answer", "on"),
    [("", None), ("2026-09-30", date(2026, 9, 30)), (" 2026-10-01 ", date(2026, 10, 1))],
)
def test_the_day_of_a_resumption_is_kept_as_typed(answer: str, on: date | None) -> None:
    was = PaperCard(resumed=STOPPED.model_copy(update={"on": date(2026, 9, 20)}))
    card = typed({**ORDINARY, "resumed_on": answer}, was=was)
    assert card == ordinary().model_copy(
        update={"resumed": STOPPED.model_copy(update={"on": on})}
    )


def test_a_game_that_was_not_resumed_gets_no_day() -> None:
    assert typed({**ORDINARY, "resumed_on": "2026-09-20"}) == ordinary()


def test_a_day_that_the_calendar_lacks_is_refused() -> None:
    with pytest.raises(InputFaults) as refused:
        typed({**ORDINARY, "resumed_on": "2026-09-31"}, was=PaperCard(resumed=STOPPED))
    assert [(one.place.column, one.cure) for one in refused.value.faults] == [
        ("resumed_on", "Give year, month and day, such as 2026-09-20.")
    ]
