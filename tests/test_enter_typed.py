"""A scorecard is typed in line by line; the answers of a person become the card."""

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

from cases.paper_cards import BOOK, LEAGUE, PLAY_OFF, ordinary
from cases.paper_season import write_season
from wholeball.cli.main import main
from wholeball.cli.scorecard_dialogue import Dialogue
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
from wholeball.game.rules import GameRules, game_rules
from wholeball.game.state import Score

ORDINARY = "1-1\n2-1\n\nh7 dissent\na10 trip\n\n\n4\n5\nhao\n\n"
"""What is typed for 3-2, two yellows, ratings and three signatures; each \\n is Enter."""
END = "\n\n4\n5\nhao\n\n"
"""No yellow, no red, ratings, signatures, no note."""


class _Person:
    """Answers prompts one after the other, and keeps what was asked and said."""

    def __init__(self, text: str) -> None:
        self.lines = text.splitlines()
        self.asked: list[str] = []
        self.told: list[str] = []

    def answer(self, prompt: str) -> str:
        self.asked.append(prompt)
        if not self.lines:
            raise EOFError
        return self.lines.pop(0)


def _typed(
    text: str, rules: GameRules = LEAGUE, *, was: PaperCard | None = None
) -> tuple[PaperCard, _Person]:
    person = _Person(text)
    dialogue = Dialogue(
        ask=person.answer,
        tell=person.told.append,
        home="Ash",
        away="Birch",
        rules=rules,
        was=was or PaperCard(),
    )
    card = dialogue.card()
    assert person.lines == []
    return card, person


def test_an_ordinary_card_takes_eleven_answers_and_forty_keys() -> None:
    card, person = _typed(ORDINARY)
    assert card == ordinary()
    assert (person.told, len(person.asked), len(ORDINARY)) == ([], 11, 40)


def test_the_prompts_of_an_ordinary_card() -> None:
    _, person = _typed(ORDINARY)
    more = "Yellow, the next [no more]: "
    assert person.asked == [
        "First half, goals of it alone [not played]: ",
        "Second half, goals of it alone [not played]: ",
        (
            "How it ended, m mercy, f forfeit, d default (a forfeit announced beforehand), "
            "b broken off [full time]: "
        ),
        "Yellow, side, number, reason, such as h7 dissent [no more]: ",
        more,
        more,
        "Red, side, number, reason, such as h7 dissent [no more]: ",
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
    card, _ = _typed(f"{line}\n0-0\n\n{END}")
    assert card.periods[0] == Score(2, 1)


@pytest.mark.parametrize("line", ["21", "2-", "a", "100-0", "-1-2", "2-1-0"])
def test_what_is_no_score_is_asked_again(line: str) -> None:
    card, person = _typed(f"{line}\n2-1\n0-0\n\n{END}")
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
    card, _ = _typed(f"0-0\n0-0\n\n{line}\n{END}")
    assert card.yellow == (yellow,)


@pytest.mark.parametrize("line", ["7 dissent", "hand ball", "h100 x", "h7dissent", "x7 y"])
def test_what_names_no_side_and_number_is_asked_again(line: str) -> None:
    card, person = _typed(f"0-0\n0-0\n\n{line}\n{END}")
    assert (card.yellow, person.told) == (
        (),
        ["  Give h or a, a number of at most two digits, and a reason."],
    )


def test_red_is_asked_for_after_yellow() -> None:
    card, _ = _typed("0-0\n0-0\n\n\na10 spits\n\n4\n3\nhao\n\n")
    assert card.red == (PaperRed(side="away", number=10, reason="spits"),)


@pytest.mark.parametrize("line", ["6", "0", "4.5", "four"])
def test_a_rating_off_the_scale_is_asked_again(line: str) -> None:
    card, person = _typed(f"0-0\n0-0\n\n\n\n{line}\n4\n\nhao\n\n")
    assert card.ratings == (PaperRating(side="home", value=Decimal(4)),)
    assert len(person.told) == 1


def test_a_low_rating_is_asked_its_reason_and_one_above_is_not() -> None:
    card, _ = _typed("0-0\n0-0\n\n\n\n2\nlate and loud\n3\nhao\n\n")
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
    _, person = _typed(answers, rules)
    assert len(person.asked) == count


def test_overtime_and_kicks_are_asked_where_a_play_off_is_level() -> None:
    card, _ = _typed(f"1-1\n0-0\n0-0\na\noxo\nooo\n\n{END}", PLAY_OFF)
    assert (card.overtime, card.kicks) == (
        (Score(0, 0),),
        PaperKicks(first="away", home="oxo", away="ooo"),
    )


def test_overtime_is_not_asked_where_a_play_off_is_decided_or_the_league_has_none() -> None:
    for text, rules in ((f"1-1\n1-0\n\n{END}", PLAY_OFF), (f"1-1\n0-0\n\n{END}", LEAGUE)):
        card, _ = _typed(text, rules)
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
    card, person = _typed(lines + ("\n\nhao\n\n" if is_given else END))
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
    card, person = _typed(f"{lines}\n\nhao\n\n")
    assert (card.ratings, person.told) == (
        (),
        [f"Ratings are not asked: {told} (Competition rules)."],
    )


def test_a_game_without_its_second_half_must_say_how_it_ended() -> None:
    _, person = _typed("1-0\n\n\nf\na\n2\n\n\n\nhao\n\n")
    assert person.told[0] == "  Give m, f, d or b."
    assert person.asked[2].endswith("b broken off: ")


def test_a_captain_who_did_not_sign_is_not_asked_about() -> None:
    card, person = _typed("0-0\n0-0\n\n\n\n4\n5\nh o\n\n")
    assert (card.signed, card.refused) == (("home_captain", "official"), ())
    assert len(person.asked) == 9


def test_a_refusal_is_asked_on_a_letter_of_its_own() -> None:
    card, person = _typed("0-0\n0-0\n\n\n\n4\n5\nhor\nh\na\nnot our goal\n\n")
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
    card, person = _typed("\n" * 15, was=FILED)
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
    card, _ = _typed("\n\n\n-\n\n\n-\n\n-\n\n\n-\n-\n", was=FILED)
    assert (card.yellow, card.red, card.ratings, card.signed, card.refused, card.note) == (
        FILED.yellow[1:],
        (),
        FILED.ratings[1:],
        (),
        (),
        "",
    )


def test_one_digit_mended_keeps_the_scorers_and_minutes_of_the_rest() -> None:
    card, person = _typed("\n3-1\n" + "\n" * 13, was=FILED)
    assert card == FILED.model_copy(update={"periods": (Score(1, 1), Score(3, 1))})
    assert person.told == []


def test_goals_taken_out_take_their_scorers_along_and_it_is_said() -> None:
    card, person = _typed("0-1\n" + "\n" * 14, was=FILED)
    assert (card.goals, person.told) == (
        FILED.goals[1:],
        ["  1 of the scorers that the card had go with the goals taken out."],
    )


def test_another_reason_keeps_the_minute_and_another_number_does_not() -> None:
    yellow = FILED.yellow[0]
    card, _ = _typed("\n\n\nh7 trip\n" + "\n" * 11, was=FILED)
    assert card.yellow[0] == yellow.model_copy(update={"reason": "trip"})
    card, _ = _typed("\n\n\nh8 dissent\n" + "\n" * 11, was=FILED)
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
    card, _ = _typed("\n" * count, was=was)
    assert card == was


def test_enter_alone_keeps_kicks_and_who_took_them() -> None:
    was = PaperCard(
        periods=(Score(1, 1), Score(0, 0)),
        overtime=(Score(0, 0),),
        kicks=PaperKicks(
            first="away", home="ox-", away="ooo", home_numbers=(7, 9, 4), away_numbers=(1, 2, 3)
        ),
    )
    assert _typed("\n" * 13, PLAY_OFF, was=was)[0] == was
    card, _ = _typed("\n\n\n\n\nooxo\n" + "\n" * 7, PLAY_OFF, was=was)
    assert card.kicks == PaperKicks(
        first="away", home="ox-", away="ooxo", home_numbers=(7, 9, 4)
    )
    card, _ = _typed("\n\n\n-\n" + "\n" * 7, PLAY_OFF, was=was)
    assert card.kicks is None


def test_a_note_of_2001_characters_is_asked_again_and_one_of_2000_taken() -> None:
    card, person = _typed(f"0-0\n0-0\n\n\n\n4\n5\nhao\n{'x' * 2001}\n{'x' * 2000}\n")
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
    card, person = _typed(f"0-0\n0-0\n\nh7 {typed}\n{END}")
    assert (card.yellow, person.told) == ((), [f"  {told}"])


def test_letters_are_composed_as_those_of_a_file_are() -> None:
    card, _ = _typed(f"0-0\n0-0\n\nh7 cafe\u0301\n{END}")
    assert card.yellow[0].reason == "caf\u00e9"


Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_season(tmp_path / "meadow")


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    def typed(*words: object, lines: str = "", then: type[BaseException] = EOFError) -> object:
        person = iter(lines.splitlines())

        def answer(_: str) -> str:
            line = next(person, None)
            if line is None:
                raise then
            return line

        monkeypatch.setattr("builtins.input", answer)
        monkeypatch.setattr("sys.argv", ["wholeball", "enter", *map(str, words)])
        status = 0
        try:
            main()
        except SystemExit as ended:
            status = int(ended.code or 0)
        told = capsys.readouterr()
        return status, told.out, told.err

    return typed  # type: ignore[return-value]


def test_a_typed_card_is_told_and_may_be_taken_back(run: Run, folder: Path) -> None:
    status, out, err = run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    assert (status, err) == (0, "")
    lines = out.splitlines()
    assert lines[2:6] == [
        "Game M1, Ash v Birch",
        (
            "The game is over. It ended at full time, at the end of the second half: "
            "game, The game. Ash wins. Counts 3\N{EN DASH}2, as played."
        ),
        "First half: 1\N{EN DASH}1",
        "Second half: 2\N{EN DASH}1",
    ]
    assert lines[-1] == (
        f"16 entries written. To go one entering back: wholeball enter {folder} M1 --undo"
    )
    status, out, _ = run(folder, "M1", "--by", "Kim", "--undo")
    assert (status, "Nothing is recorded yet." in out) == (0, True)
    assert out.splitlines()[-1] == (
        "16 entries written. To bring back what was taken back: "
        f"wholeball enter {folder} M1 --redo"
    )
    status, _, err = run(folder, "M1", "--by", "Kim", "--undo")
    assert (status, err) == (
        1,
        (
            "All that was entered of game M1 has been taken back. There is nothing to take back. "
            f"To bring it back: wholeball enter {folder} M1 --redo\n"
        ),
    )
    status, out, _ = run(folder, "M1", "--by", "Kim", "--redo")
    assert (status, "Ash wins." in out) == (0, True)


def test_one_digit_is_mended_by_typing_it_alone(run: Run, folder: Path) -> None:
    run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    status, out, _ = run(folder, "M1", "--by", "Kim", lines="\n3-1\n" + "\n" * 9)
    assert status == 0
    assert out.splitlines()[3:5] == ["New", "  Second half: goal of Ash."]
    assert out.splitlines()[1] == (
        "Enter alone takes what stands in brackets; a lone - takes an answer out."
    )
    assert out.splitlines()[-1] == (
        f"1 entry written. To go one entering back: wholeball enter {folder} M1 --undo"
    )


def test_the_name_is_asked_first_where_it_was_not_given(run: Run, folder: Path) -> None:
    status, _, _ = run(folder, "M1", lines=f"Kim\n{ORDINARY}")
    assert status == 0
    assert b'"who":"Kim"' in (folder / "games" / "M1.jsonl").read_bytes()


def test_the_same_card_again_says_that_nothing_differs(run: Run, folder: Path) -> None:
    run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    _, out, _ = run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    assert out.splitlines()[-1] == (
        "Nothing differs from what was entered before; nothing was written."
    )


@pytest.mark.parametrize(
    ("stop", "status"), [(KeyboardInterrupt, 130), (EOFError, 1)], ids=["ctrl-c", "end"]
)
def test_a_card_that_is_broken_off_writes_nothing(
    run: Run, folder: Path, stop: type[BaseException], status: int
) -> None:
    got, out, _ = run(folder, "M1", "--by", "Kim", lines="1-1\n2-1\n", then=stop)
    assert (got, out.endswith("Nothing was written.\n")) == (status, True)
    assert not (folder / "games").exists()


def test_a_template_is_filled_in_and_entered(run: Run, folder: Path) -> None:
    status, out, _ = run(folder, "M2", "--template")
    path = folder / "cards" / "M2.toml"
    assert (status, out) == (0, f"{path}\n")
    assert run(folder, "M2", "--template")[0] == 1
    status, _, err = run(folder, "M2", "--file", "--by", "Kim")
    assert (status, err.splitlines()[-1]) == (1, "Nothing was written.")
    path.write_text(path.read_text().replace('["", ""]', '["1-1", "2-1"]'))
    status, out, _ = run(folder, "M2", "--file", "--by", "Kim")
    assert (status, "Counts 3\N{EN DASH}2, as played." in out) == (0, True)


def test_a_template_of_an_entered_game_is_the_card_as_it_was_entered(
    run: Run, folder: Path
) -> None:
    run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    run(folder, "M1", "--template")
    status, out, _ = run(folder, "M1", "--file", "--by", "Kim")
    assert (status, out.splitlines()[-1]) == (
        0,
        "Nothing differs from what was entered before; nothing was written.",
    )


def test_file_and_undo_do_not_go_together(run: Run, folder: Path) -> None:
    status, _, err = run(folder, "M1", "--file", "--undo")
    assert (status, err) == (
        1,
        "--file, --template, --undo and --redo do not go together. Give one of them.\n",
    )


def test_an_unknown_game_offers_the_nearest(run: Run, folder: Path) -> None:
    assert run(folder, "N1", "--by", "Kim") == (
        1,
        "",
        "There is no game N1 in timetable.csv. Use one of: M1, M2, M3.\n",
    )
