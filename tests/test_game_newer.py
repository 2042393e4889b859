"""A game with an entry of a newer kind is told with what can be read of it."""

from json import loads
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.logged import certify, log, newer, played
from cases.paper_season import write_season
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append
from wholeball.game.envelope import Entry


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_season(tmp_path / "meadow")


def _log(folder: Path) -> tuple[list[Entry], str]:
    book = read_folder(FolderRecord(folder)).season.rulebook.digest
    return log(folder, "M1", played(1, 0), book=book), book


@pytest.mark.parametrize(("kind", "version"), [("goal", 2), ("goal_seen", 1)])
def test_an_entry_of_a_newer_kind_is_told_as_kept_and_not_read(
    run: Run, folder: Path, kind: str, version: int
) -> None:
    entries, book = _log(folder)
    append(
        FolderRecord(folder),
        "M1",
        [newer("M1", entries, kind=kind, version=version, book=book)],
    )
    says = (
        f"An entry of a newer kind ({kind}, version {version}) is kept and not read; update "
        "this program."
    )
    page = folder / "m1.html"
    told = run("game", folder, "M1", "--html", page)
    assert told.status == 0
    assert f"  In the first half at 5:00, minute 6: {says}" in told.out.splitlines()
    assert "is kept and not read; update this program." in page.read_text()
    values = loads(run("game", folder, "M1", "--json").out)
    assert (values["score"], [one["code"] for one in values["questions"]]) == (
        [1, 0],
        ["update_needed"],
    )
    assert says in [row["says"] for row in values["happened"]]


def test_an_entry_of_a_newer_kind_that_came_late_is_told_so(run: Run, folder: Path) -> None:
    entries, book = _log(folder)
    certify(folder, "M1", entries, book=book)
    append(
        FolderRecord(folder), "M1", [newer("M1", entries, kind="goal", version=2, book=book)]
    )
    lines = run("game", folder, "M1").out.splitlines()
    assert lines[lines.index("Came too late") + 1] == (
        "  An entry of a newer kind (goal, version 2) is kept and not read; update this program."
    )
