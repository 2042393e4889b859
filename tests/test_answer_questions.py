"""An open question of a game is answered from the desk, at the terminal or by options."""

from decimal import Decimal
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.paper_cards import ordinary
from cases.paper_season import author, write_season
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import read_game
from wholeball.game.codec import event
from wholeball.game.happenings import Answered
from wholeball.game.paper import PaperCard, PaperRating, PaperRed
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.usecases.answer_questions import (
    answer_question,
    game_to_answer,
    open_questions,
)
from wholeball.usecases.enter_game import enter_card, game_to_enter

M1 = GameId("M1")
SAYS = (
    "A rating of Birch is above the best for a side with a red. It is 5, at most 3. "
    "Until somebody answers, it counts."
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = write_season(tmp_path / "meadow")
    card: PaperCard = ordinary().model_copy(
        update={
            "red": (PaperRed(side="away", number=10, reason="spits"),),
            "ratings": (PaperRating(side="away", value=Decimal(5)),),
        }
    )
    enter_card(game_to_enter(FolderRecord(folder), M1), card, by=author())
    return folder


def _answers(folder: Path) -> list[Answered]:
    found = (event(one).what for one in read_game(FolderRecord(folder), M1).entries)
    return [one for one in found if isinstance(one, Answered)]


def test_a_question_about_a_rating_names_its_figures_and_article(folder: Path) -> None:
    [one] = open_questions(game_to_answer(FolderRecord(folder), M1))
    assert f"{one.says} {one.stands}" == SAYS
    assert one.cites.startswith("ratings, ")
    assert one.answers == (
        ("counts", "It counts."),
        ("does_not_count", "It does not count."),
    )


def test_an_answer_is_one_entry_of_the_desk_with_its_reason(folder: Path) -> None:
    told = run_answer(folder, "does_not_count")
    assert told == ()
    [answered] = _answers(folder)
    assert (answered.asked, answered.answer, answered.by, answered.reason) == (
        "rating_cap",
        "does_not_count",
        "supervisor",
        "The red was shown.",
    )
    last = read_game(FolderRecord(folder), M1).entries[-1].said
    assert (last.dev, last.who) == ("desk", "Sam")


def run_answer(
    folder: Path, answer: str, reason: str = "The red was shown."
) -> tuple[object, ...]:
    to = game_to_answer(FolderRecord(folder), M1)
    [one] = open_questions(to)
    return answer_question(
        to, one.question, answer, reason=reason, by=author(2, name="Sam")
    ).left


@pytest.mark.parametrize(
    ("answer", "reason", "says"),
    [
        ("as_it_is", "So.", "Give counts or does_not_count."),
        ("counts", "  ", "Give 1 to 500 letters"),
        ("counts", "x" * 501, "Give 1 to 500 letters"),
    ],
)
def test_what_is_no_answer_or_no_reason_writes_nothing(
    folder: Path, answer: str, reason: str, says: str
) -> None:
    with pytest.raises(WholeballError, match=says):
        run_answer(folder, answer, reason)
    assert _answers(folder) == []


def test_a_question_that_was_answered_meanwhile_is_open_no_more(folder: Path) -> None:
    to = game_to_answer(FolderRecord(folder), M1)
    [one] = open_questions(to)
    run_answer(folder, "counts")
    with pytest.raises(WholeballError, match="open no more"):
        answer_question(to, one.question, "counts", reason="So.", by=author(3))


def test_the_terminal_lists_the_questions_and_takes_options(run: Run, folder: Path) -> None:
    words = ("answer", folder, "M1", "--by", "Sam", "--question", "1", "--reason", "So.")
    told = run(*words, "--answer", "counts")
    lines = told.out.splitlines()
    assert (told.status, told.err, lines[0]) == (0, "", "Game M1, Ash v Birch")
    assert lines[1].startswith(f"1. {SAYS} (ratings, ")
    assert lines[2:4] == ["   counts: It counts.", "   does_not_count: It does not count."]
    assert lines[-1] == "1 entry written. No question is open any more."
    again = run(*words, "--answer", "counts")
    assert (again.status, again.out.splitlines()[1:]) == (0, ["No question is open."])


@pytest.mark.parametrize("number", ["2", "-1"])
def test_a_number_that_is_not_listed_is_refused(run: Run, folder: Path, number: str) -> None:
    told = run("answer", folder, "M1", "--by", "Sam", "--question", number)
    assert (told.status, told.err.splitlines()[-1]) == (
        1,
        "There is no question of that number; 1 are open. Give a number from 1 to 1.",
    )


def test_what_was_not_given_is_asked(
    run: Run, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = iter(["1", "does_not_count", "The red was shown.", "Sam"])
    monkeypatch.setattr("builtins.input", lambda _: next(lines))
    assert run("answer", folder, "M1").status == 0
    assert [one.answer for one in _answers(folder)] == ["does_not_count"]
