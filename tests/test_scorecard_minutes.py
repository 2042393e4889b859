"""A yellow or red is typed in with its minute, counted through from the kick-off, or without one."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.paper_cards import LEAGUE, PLAY_OFF
from cases.typed_answers import typed_card
from wholeball.game.paper import PaperCard, PaperYellow
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.kernel.faults import InputFaults
from wholeball.usecases.scorecard_sheet import asked
from wholeball.usecases.typed_scorecard import card_of

PLAYED = {"period_1": "0-0", "period_2": "0-0"}
IMPOSSIBLE = (
    "Line 1: {} is no minute of this game, which has 1 to 44. Count from the kick-off without "
    "the interval, such as 31; what came after the time of a half, such as 22+1."
)


def yellow(
    line: str, rules: GameRules = LEAGUE, was: PaperCard | None = None
) -> tuple[PaperYellow, ...]:
    return card_of({**PLAYED, "yellow": line}, rules=rules, was=was or PaperCard()).yellow


def refused(line: str) -> list[str]:
    with pytest.raises(InputFaults) as wrong:
        yellow(line)
    return [one.cure for one in wrong.value.faults if one.place.column == "yellow"]


@pytest.mark.parametrize(
    ("line", "period", "minute", "reason"),
    [
        ("h4 31 reckless tackle", 2, 9, "reckless tackle"),
        ("h4 31' reckless tackle", 2, 9, "reckless tackle"),
        ("h4 31\u2019 reckless tackle", 2, 9, "reckless tackle"),
        ("h4, 31: reckless tackle", 2, 9, "reckless tackle"),
        ("h4 31:20 reckless tackle", 2, 10, "reckless tackle"),
        ("h4 1", 1, 1, ""),
        ("h4 22 late", 1, 22, "late"),
        ("h4 22+1 late", 1, 23, "late"),
        ("h4 23 late", 2, 1, "late"),
        ("h4 44 late", 2, 22, "late"),
        ("h4 44+3 late", 2, 25, "late"),
        ("h4 reckless tackle", None, None, "reckless tackle"),
        ("h4 2nd foul in a row", None, None, "2nd foul in a row"),
        ("h4 ? 31 shirts pulled", None, None, "31 shirts pulled"),
    ],
)
def test_a_minute_after_the_number_is_the_minute_and_no_part_of_the_reason(
    line: str, period: int | None, minute: int | None, reason: str
) -> None:
    assert yellow(line) == (
        PaperYellow(side="home", number=4, period=period, minute=minute, reason=reason),
    )


def test_somebody_nobody_could_name_has_a_minute_too() -> None:
    assert yellow("h? 31 dissent") == (
        PaperYellow(side="home", period=2, minute=9, reason="dissent"),
    )


@pytest.mark.parametrize("token", ["0", "45", "99", "20+1", "44:00", "31:75", "22+99"])
def test_a_minute_that_the_game_does_not_have_is_refused_with_the_cure(token: str) -> None:
    assert refused(f"h4 {token} dissent") == [IMPOSSIBLE.format(token)]


def test_minutes_of_overtime_count_on_where_the_rulebook_has_it() -> None:
    overtime = PaperYellow(side="home", number=4, period=3, minute=7)
    assert yellow("h4 51", PLAY_OFF) == (overtime,)
    with pytest.raises(InputFaults):
        yellow("h4 52", PLAY_OFF)


@pytest.mark.parametrize(
    ("one", "line"),
    [
        (PaperYellow(side="home", number=4, period=2, minute=9, reason="late"), "h4 31 late"),
        (PaperYellow(side="home", number=4, period=1, minute=24), "h4 22+2"),
        (PaperYellow(side="away", period=1, minute=3), "a? 3"),
        (PaperYellow(side="home", number=4, reason="31 shirts"), "h4 ? 31 shirts"),
        (PaperYellow(side="home", number=4, reason="? unclear"), "h4 ? ? unclear"),
        (PaperYellow(side="home", number=4, reason="2nd foul"), "h4 2nd foul"),
    ],
)
def test_what_was_kept_stands_on_the_sheet_so_that_it_is_read_back(
    one: PaperYellow, line: str
) -> None:
    was = PaperCard(yellow=(one,))
    [shown] = [x for x in asked(LEAGUE, was, home="Ash", away="Birch") if x.name == "yellow"]
    assert (shown.value, yellow(line)) == (line, (one,))


def test_a_minute_that_is_emptied_is_taken_out_and_another_takes_its_place() -> None:
    was = PaperCard(
        yellow=(PaperYellow(side="home", number=4, period=2, minute=9, to="substitute"),)
    )
    assert yellow("h4", was=was) == (PaperYellow(side="home", number=4, to="substitute"),)
    assert yellow("h4 30", was=was) == (
        PaperYellow(side="home", number=4, period=2, minute=8, to="substitute"),
    )


def test_the_hint_says_how_a_minute_is_written() -> None:
    hints = {x.name: x.hint for x in asked(LEAGUE, PaperCard(), home="Ash", away="Birch")}
    assert hints["red"] == hints["yellow"]
    assert hints["yellow"] == (
        "One a line: side, number, minute if known, reason, such as h7 31 dissent. Minutes are "
        "counted from the kick-off without the interval; past the time of a half, 22+1."
    )


def test_the_terminal_takes_a_minute_and_keeps_the_one_it_had() -> None:
    was = PaperCard(
        periods=(Score(0, 0), Score(0, 0)),
        yellow=(PaperYellow(side="home", number=7, period=1, minute=12),),
    )
    card, _ = typed_card("\n\n\nh7 trip\na9 40 dissent\n" + "\n" * 6, was=was)
    assert card.yellow == (
        PaperYellow(side="home", number=7, period=1, minute=12, reason="trip"),
        PaperYellow(side="away", number=9, period=2, minute=18, reason="dissent"),
    )


_shown = st.builds(
    lambda number, moment, reason: PaperYellow(
        side="home", number=number, period=moment[0], minute=moment[1], reason=reason
    ),
    st.none() | st.integers(0, 99),
    st.just((None, None)) | st.tuples(st.integers(1, 2), st.integers(1, 40)),
    st.text("ab1'+:?x 9", max_size=12).map(str.strip),
)


@given(_shown)
def test_whatever_minute_and_reason_are_kept_stand_as_they_were_when_sent_again(
    one: PaperYellow,
) -> None:
    was = PaperCard(periods=(Score(0, 0), Score(0, 0)), yellow=(one,))
    answers = {x.name: x.value for x in asked(LEAGUE, was, home="Ash", away="Birch")}
    assert card_of(answers, rules=LEAGUE, was=was) == was
