"""A scorecard is typed in line by line; the answers of a person become the card."""

from decimal import Decimal

import pytest

from cases.paper_cards import BOOK, LEAGUE, PLAY_OFF, ordinary
from cases.typed_answers import ORDINARY, typed_card
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperDefault,
    PaperForfeit,
    PaperKicks,
    PaperRating,
    PaperRed,
    PaperRefusal,
    PaperYellow,
)
from wholeball.game.rules import game_rules
from wholeball.game.state import Score

END = "\n\n4\n5\nhao\n\n"
"""No yellow, no red, ratings, signatures, no note."""


def test_an_ordinary_card_takes_eleven_answers_and_forty_keys() -> None:
    card, person = typed_card(ORDINARY)
    assert card == ordinary()
    assert (person.told, len(person.asked), len(ORDINARY)) == ([], 11, 40)


def test_the_prompts_of_an_ordinary_card() -> None:
    _, person = typed_card(ORDINARY)
    more = "Yellow, the next [no more]: "
    assert person.asked == [
        "First half, goals of it alone [not played]: ",
        "Second half, goals of it alone [not played]: ",
        (
            "How it ended, m mercy, f forfeit, d default (a forfeit announced beforehand), "
            "b broken off [full time]: "
        ),
        "Yellow, side, number, minute if known, reason, such as h7 31 dissent [no more]: ",
        more,
        more,
        "Red, side, number, minute if known, reason, such as h7 31 dissent [no more]: ",
        "Rating of Ash, 1 to 5 by 1 [none]: ",
        "Rating of Birch, 1 to 5 by 1 [none]: ",
        (
            "Signed, letters: h and a captains, o official, s scorekeeper, u supervisor; "
            "r where somebody refused [nobody]: "
        ),
        "Note, at most 2,000 characters [none]: ",
    ]


@pytest.mark.parametrize("line", ["2-1", "2:1", "2 1", " 2 - 1 ", "2\N{EN DASH}1"])
def test_a_score_may_be_typed_so(line: str) -> None:
    card, _ = typed_card(f"{line}\n0-0\n\n{END}")
    assert card.periods[0] == Score(2, 1)


@pytest.mark.parametrize("line", ["21", "2-", "a", "100-0", "-1-2", "2-1-0"])
def test_what_is_no_score_is_asked_again(line: str) -> None:
    card, person = typed_card(f"{line}\n2-1\n0-0\n\n{END}")
    assert (card.periods[0], person.told) == (
        Score(2, 1),
        ["  Give two numbers, home first, such as 2-1."],
    )


@pytest.mark.parametrize(
    ("line", "yellow"),
    [
        ("h7 dissent", PaperYellow(side="home", number=7, reason="dissent")),
        ("a 10, late tackle", PaperYellow(side="away", number=10, reason="late tackle")),
        ("home 7", PaperYellow(side="home", number=7)),
        ("AWAY07: x", PaperYellow(side="away", number=7, reason="x")),
        ("h? dissent", PaperYellow(side="home", reason="dissent")),
        ("h dissent", PaperYellow(side="home", reason="dissent")),
        ("a", PaperYellow(side="away")),
    ],
)
def test_a_yellow_may_be_typed_so(line: str, yellow: PaperYellow) -> None:
    card, _ = typed_card(f"0-0\n0-0\n\n{line}\n{END}")
    assert card.yellow == (yellow,)


@pytest.mark.parametrize("line", ["7 dissent", "hand ball", "h100 x", "h7dissent", "x7 y"])
def test_what_names_no_side_and_number_is_asked_again(line: str) -> None:
    card, person = typed_card(f"0-0\n0-0\n\n{line}\n{END}")
    assert (card.yellow, person.told) == (
        (),
        ["  Give h or a, a number of at most two digits, and a reason."],
    )


def test_red_is_asked_for_after_yellow() -> None:
    card, _ = typed_card("0-0\n0-0\n\n\na10 spits\n\n4\n3\nhao\n\n")
    assert card.red == (PaperRed(side="away", number=10, reason="spits"),)


@pytest.mark.parametrize("line", ["6", "0", "4.5", "four"])
def test_a_rating_off_the_scale_is_asked_again(line: str) -> None:
    card, person = typed_card(f"0-0\n0-0\n\n\n\n{line}\n4\n\nhao\n\n")
    assert card.ratings == (PaperRating(side="home", value=Decimal(4)),)
    assert len(person.told) == 1


def test_a_low_rating_is_asked_its_reason_and_one_above_is_not() -> None:
    card, _ = typed_card("0-0\n0-0\n\n\n\n2\nlate and loud\n3\nhao\n\n")
    assert card.ratings == (
        PaperRating(side="home", value=Decimal(2), reason="late and loud"),
        PaperRating(side="away", value=Decimal(3)),
    )


@pytest.mark.parametrize(
    ("by", "count"),
    [("nobody", 9), ("officials", 11), ("opponents", 11), ("officials_and_opponents", 13)],
)
def test_ratings_are_asked_of_those_who_rate(by: str, count: int) -> None:
    ratings = BOOK.ratings.model_copy(update={"by": by})
    rules = game_rules(BOOK.model_copy(update={"ratings": ratings}))
    answers = "1-1\n2-1\n\nh7 dissent\na10 trip\n\n\n" + "5\n" * (count - 9) + "hao\n\n"
    _, person = typed_card(answers, rules)
    assert len(person.asked) == count


def test_overtime_and_kicks_are_asked_where_a_play_off_is_level() -> None:
    card, _ = typed_card(f"1-1\n0-0\n0-0\na\noxo\nooo\n\n{END}", PLAY_OFF)
    assert (card.overtime, card.kicks) == (
        (Score(0, 0),),
        PaperKicks(first="away", home="oxo", away="ooo"),
    )


def test_kicks_are_asked_first_who_began_and_then_side_by_side() -> None:
    _, person = typed_card(f"1-1\n0-0\n0-0\na\noxo\nooo\n\n{END}", PLAY_OFF)
    assert person.asked[3:6] == [
        "Kicks, who kicked first, h or a [no kicks]: ",
        "Kicks of Ash, a letter a kick (o scored, x not, - not taken): ",
        "Kicks of Birch, a letter a kick (o scored, x not, - not taken): ",
    ]


def test_the_second_overtime_is_asked_unless_a_golden_goal_ended_the_first() -> None:
    overtime = BOOK.overtime.model_copy(update={"periods": 2})
    two = game_rules(BOOK.model_copy(update={"overtime": overtime}), "play_off")
    card, _ = typed_card(f"1-1\n0-0\n0-1\n\n{END}", two)
    assert card.overtime == (Score(0, 1),)
    card, _ = typed_card(f"1-1\n0-0\n0-0\n1-0\n\n{END}", two)
    assert card.overtime == (Score(0, 0), Score(1, 0))


def test_overtime_is_not_asked_where_a_play_off_is_decided_or_the_league_has_none() -> None:
    for text, rules in ((f"1-1\n1-0\n\n{END}", PLAY_OFF), (f"1-1\n0-0\n\n{END}", LEAGUE)):
        card, _ = typed_card(text, rules)
        assert (card.overtime, card.kicks) == ((), None)


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ("9-0\n0-0\nm\n6\n", {"ended": "mercy", "minutes_left": 6}),
        ("9-0\n0-0\nm\n\n", {"ended": "mercy", "minutes_left": None}),
        ("\nf\na\n2\n", {"forfeit": PaperForfeit(by="away", why="too_few")}),
        (
            "1-0\n\nf\nb\n3\n10\n",
            {"forfeit": PaperForfeit(by="both", why="left"), "minutes_left": 10},
        ),
        ("\nd\nh\ny\n", {"default": PaperDefault(by="home", in_time=True)}),
        (
            "1-0\n0-0\nb\n1\n12\n",
            {"broken_off": PaperBrokenOff(why="weather"), "minutes_left": 12},
        ),
        (
            "1-0\n0-0\nb\n5\na\n12\n",
            {"broken_off": PaperBrokenOff(why="disorder", to_blame="away"), "minutes_left": 12},
        ),
    ],
)
def test_a_game_may_end_so(lines: str, says: dict[str, object]) -> None:
    is_given = "forfeit" in says or "default" in says
    card, person = typed_card(lines + ("\n\nhao\n\n" if is_given else END))
    assert {name: getattr(card, name) for name in says} == says
    assert [one for one in person.told if not one.startswith("Ratings are not asked")] == []


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("\nf\na\n2\n", "the rulebook gives Ash 5 and Birch 1"),
        ("\nf\nb\n2\n", "the rulebook gives Ash 1 and Birch 1"),
        ("\nd\nh\ny\n", "the rulebook gives Ash 1 and Birch 5"),
    ],
)
def test_ratings_that_the_rulebook_gives_are_said_and_not_asked(lines: str, told: str) -> None:
    card, person = typed_card(f"{lines}\n\nhao\n\n")
    assert (card.ratings, person.told) == (
        (),
        [f"Ratings are not asked: {told} (Competition rules)."],
    )


def test_a_game_without_its_second_half_must_say_how_it_ended() -> None:
    _, person = typed_card("1-0\n\n\nf\na\n2\n\n\n\nhao\n\n")
    assert person.told[0] == "  Give m, f, d or b."
    assert person.asked[2].endswith("b broken off: ")


def test_a_captain_who_did_not_sign_is_not_asked_about() -> None:
    card, person = typed_card("0-0\n0-0\n\n\n\n4\n5\nh o\n\n")
    assert (card.signed, card.refused) == (("home_captain", "official"), ())
    assert len(person.asked) == 9


def test_a_refusal_is_asked_on_a_letter_of_its_own() -> None:
    card, person = typed_card("0-0\n0-0\n\n\n\n4\n5\nhor\nh\na\nnot our goal\n\n")
    assert (card.signed, card.refused, person.told) == (
        ("home_captain", "official"),
        (PaperRefusal(by="away_captain", reason="not our goal"),),
        ["  h signed: the same person does not refuse."],
    )
    assert person.asked[8:11] == [
        "Refused, letters of h, a, o, s and u: ",
        "Refused, letters of h, a, o, s and u: ",
        "Why the away captain refused [not said]: ",
    ]


def test_a_note_of_2001_characters_is_asked_again_and_one_of_2000_taken() -> None:
    card, person = typed_card(f"0-0\n0-0\n\n\n\n4\n5\nhao\n{'x' * 2001}\n{'x' * 2000}\n")
    assert (len(card.note), person.told) == (
        2000,
        ["  It has 2,001 characters; at most 2,000 are kept."],
    )


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("a\u202eb", "U+202E stands in it, which nobody can see."),
        ("caf\udce9", "It has bytes that are not UTF-8. Set the terminal to UTF-8."),
    ],
)
def test_what_nobody_can_see_or_read_is_asked_again(typed: str, told: str) -> None:
    card, person = typed_card(f"0-0\n0-0\n\nh7 {typed}\n{END}")
    assert (card.yellow, person.told) == ((), [f"  {told}"])


def test_letters_are_composed_as_those_of_a_file_are() -> None:
    card, _ = typed_card(f"0-0\n0-0\n\nh7 cafe\u0301\n{END}")
    assert card.yellow[0].reason == "caf\u00e9"
