"""Types questions and answers as an official does, and reads the ruling that comes of them."""

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from typing import TypeAlias

import pytest

from cases.command_line import Run
from wholeball.cli import ask as command

Answers: TypeAlias = Callable[..., None]
EIGHT = str(files("wholeball.rulebook.presets").joinpath("eight.toml"))
TOSS = """
What is to be settled?
   1  who chooses, and who kicks off
   2  somebody who comes on, or should not have
"""
KICKS_OFF = """
Situation
  What is to be settled? Who chooses, and who kicks off.
  What did the winner of the toss choose? The kick-off.
  Which half begins? The second.
Ruling by Laws of the Game 2025/26
The side that lost the toss kicks off.
Say: "At the second half: the side that did not take the first kick-off takes this one."
"""


@pytest.fixture(autouse=True)
def _in_a_folder_without_a_rulebook(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> Answers:
    """Return what lays answers out, one a question; after the last the input ends."""

    def lay(*lines: str) -> None:
        left = iter(lines)

        def answer(prompt: str) -> str:
            sys.stdout.write(f"{prompt}\n")
            try:
                return next(left)
            except StopIteration:
                raise EOFError from None

        monkeypatch.setattr("builtins.input", answer)

    return lay


def test_questions_about_persons_come_one_by_one_to_a_ruling(
    run: Run, answers: Answers
) -> None:
    answers("2", "1", "2", "2")
    told = run("ask")
    assert told.status == 0
    assert TOSS in told.out
    assert KICKS_OFF in told.out


def test_back_takes_one_answer_back_and_a_phrase_counts_as_its_number(
    run: Run, answers: Answers
) -> None:
    answers("2", "1", "1", "b", "The kick-off", "second")
    told = run("ask")
    assert told.out.count("What did the winner of the toss choose?") == 3
    assert KICKS_OFF in told.out


def test_back_at_the_first_question_and_an_answer_that_is_none_are_told(
    run: Run, answers: Answers
) -> None:
    answers("9", "2", "b", "0", "14", "sent_of", "q")
    told = run("ask")
    assert told.status == 0
    assert "Give a number from 1 to 2.\n" in told.out
    assert "This is the first question; there is nothing to go back to.\n" in told.out
    assert told.out.count("Give a number from 1 to 13.\n") == 2
    assert "Give a number from 1 to 13. Did you mean 4, sent_off?\n" in told.out
    assert told.out.endswith("There is no ruling yet.\n")


def test_not_known_says_what_follows_from_each_answer_and_asks_again(
    run: Run, answers: Answers
) -> None:
    answers("2", "1", "u", "q")
    told = run("ask")
    assert (
        "  an end: The side that lost the toss kicks off. Or: The side that won the toss kicks\n"
        "    off.\n" in told.out
    )
    assert told.out.count("What did the winner of the toss choose?") == 2


def test_not_known_is_no_answer_to_what_it_is_about(run: Run, answers: Answers) -> None:
    answers("2", "u", "q")
    told = run("ask")
    assert "u: not known" not in told.out
    assert "Give a number from 1 to 13.\n" in told.out


def test_free_words_are_taken_only_where_they_are_agreed_to(run: Run, answers: Answers) -> None:
    answers("x", "1 9", "3 4", "2", "2")
    told = run("ask", "--rulebook", EIGHT, "keeper picked", "up a throw-in from his own team")
    assert told.out.count("Give y, n, o, or numbers from 1 to 4.\n") == 2
    assert "  3  What did the goalkeeper do with the hands? Took a ball" in told.out
    assert (
        "\nIndirect free kick for the other side, on the nearest point of the goal" in told.out
    )


def test_free_words_can_be_refused_and_taken_back(run: Run, answers: Answers) -> None:
    answers("o", "n", "2", "q")
    refused = run("ask", "who kicks off in the second half")
    assert refused.out.count("It sounds like this:") == 2
    assert TOSS in refused.out
    answers("y", "b", "q")
    back = run("ask", "who kicks off in the second half")
    assert back.out.index("What did the winner") < back.out.index(
        "What is to be settled?\n   1"
    )


def test_words_that_are_not_known_lead_to_the_questions(run: Run, answers: Answers) -> None:
    answers("q")
    told = run("ask", "zzz")
    assert told.out.startswith("Nothing in it is known here. The questions come one by one.\n")


def test_an_input_that_ends_too_soon_is_told_and_ends_with_status_1(
    run: Run, answers: Answers
) -> None:
    answers("2", "1")
    told = run("ask")
    assert told.status == 1
    assert told.out.endswith("\nThe input ended before there was a ruling.\n")


def test_ctrl_c_leaves_quietly(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(_: str) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr("builtins.input", stop)
    told = run("ask")
    assert (told.status, told.err) == (command.STOPPED, "")
    assert told.out.endswith("  q ends.\n\n")


def test_a_process_that_is_interrupted_ends_with_130_and_says_nothing(tmp_path: Path) -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "wholeball", "ask"],
        cwd=tmp_path,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        while "q ends" not in process.stdout.readline():
            pass
        process.send_signal(signal.SIGINT)
        assert process.wait(timeout=30) == command.STOPPED
        assert process.stderr.read() == ""


def test_answers_can_be_piped_in(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "wholeball", "ask"],
        cwd=tmp_path,
        input="2\n1\n2\n2\n",
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert KICKS_OFF in done.stdout
