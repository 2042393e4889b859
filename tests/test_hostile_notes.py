"""What somebody wrote into a log reaches a terminal as text, and cannot command it."""

from json import loads
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.logged import log, played
from cases.paper_season import write_season
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.happenings import Certified, Noted, SentOff
from wholeball.kernel.text import unreadable

HOSTILE = "\x1b[2J\x1b]0;x\x07 \x00 \x9b31m \u202ednammoc\u202c :bomb:"
SHOWN = "\\x1b[2J\\x1b]0;x\\x07 \\x00 \\x9b31m \\u202ednammoc\\u202c :bomb:"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = write_season(tmp_path / "meadow")
    book = read_folder(FolderRecord(folder)).season.rulebook.digest
    happened = [
        *played(1, 0),
        (2, 100, Noted(text=HOSTILE)),
        (2, 110, Noted(text="One line\nCertified by Sam.")),
        (2, 120, SentOff(side="home", number=9, reason=HOSTILE)),
        (2, 2700, Certified(by=HOSTILE[:40], state="", frontier=())),
    ]
    log(folder, "M1", happened, book=book)
    return folder


def test_a_note_and_a_reason_show_their_control_characters_as_escapes(
    run: Run, folder: Path
) -> None:
    # Everything counts again, so that the notes are among what happened.
    run("reopen", folder, "M1", "--by", "Sam", "--reason", "A note.")
    told = run("game", folder, "M1", "--officials")
    assert (told.status, unreadable(told.out), unreadable(told.err)) == (0, None, None)
    at = [line for line in told.out.splitlines() if SHOWN in line]
    assert [line.partition(": ")[2] for line in at][-2:] == [
        f"Note: {SHOWN}",
        f"Red for number 9 of Ash: {SHOWN}.",
    ]


def test_a_second_line_of_a_note_cannot_pass_for_a_line_of_the_program(
    run: Run, folder: Path
) -> None:
    run("reopen", folder, "M1", "--by", "Sam", "--reason", "A note.")
    lines = run("game", folder, "M1", "--officials").out.splitlines()
    assert "      Certified by Sam." in lines


def test_json_holds_the_note_and_no_control_character(run: Run, folder: Path) -> None:
    run("reopen", folder, "M1", "--by", "Sam", "--reason", "A note.")
    out = run("game", folder, "M1", "--officials", "--json").out
    assert unreadable(out) is None
    assert f"Note: {HOSTILE}" in [row["says"] for row in loads(out)["happened"]]


def test_a_refusal_shows_a_hostile_name_by_its_escapes(run: Run, folder: Path) -> None:
    told = run("certify", folder, "M1", "--by", "Kim")
    assert (told.status, unreadable(told.err)) == (1, None)
    assert f"certified already, by {SHOWN[:20]}" in told.err
