"""The pages and PDFs of a calendar are made with the pages of a season."""

import io
from datetime import UTC, datetime
from pathlib import Path

from pypdf import PdfReader

from cases.command_line import Run
from cases.planned_season import PLANNING, write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.make_pages import make_pages

PRINTED = datetime(2026, 12, 1, 15, tzinfo=UTC)
FINAL = """
[[play_offs]]
game = "P1"
round = 4
home = "seed 1"
away = "seed 2"
"""
SLOTS = "field,weekday,from,until,minutes\nMeadow 1,monday,18:00,22:00,75\n"


def planned(run: Run, folder: Path) -> Path:
    """Plan a season with a final."""
    write_folder(folder, planning_toml=f"{PLANNING}{FINAL}", slots_csv=SLOTS)
    told = run("plan", folder, "--seconds", "5", "--reproducible", "--now", "2026-12-01T10:00")
    assert told.status == 0, told.err
    return folder


def test_a_season_with_a_timetable_has_a_calendar_and_one_without_has_none(
    run: Run, tmp_path: Path
) -> None:
    folder, out = write_folder(tmp_path / "season"), tmp_path / "out"
    make_pages(FolderRecord(folder), out, printed=PRINTED)
    assert not list(out.glob("calendar*"))
    make_pages(FolderRecord(planned(run, folder)), out, printed=PRINTED)
    assert sorted(path.name for path in out.glob("calendar*")) == [
        "calendar-a4.pdf",
        "calendar-field-1.html",
        "calendar-letter.pdf",
        *(f"calendar-team-{number}.html" for number in range(1, 5)),
        "calendar.html",
    ]
    page = (out / "calendar.html").read_text(encoding="utf-8")
    for fixture in read_folder(FolderRecord(folder)).timetable:
        assert f"<bdi>{fixture.home}</bdi>" in page
    assert "<bdi>seed 1</bdi>" in page
    assert 'href="calendar.html" aria-current="page"' in page


def test_the_printed_calendar_is_tagged_and_has_every_game_and_team(
    run: Run, tmp_path: Path
) -> None:
    folder = planned(run, tmp_path / "season")
    out = tmp_path / "out"
    make_pages(FolderRecord(folder), out, printed=PRINTED)
    data = (out / "calendar-a4.pdf").read_bytes()
    reader = PdfReader(io.BytesIO(data))
    assert "/StructTreeRoot" in reader.root_object
    text = " ".join(page.extract_text() for page in reader.pages)
    for words in (
        "Calendar, Harbour winter eights",
        "Ash",
        "Dogwood",
        "seed 1",
        "Team by team",
    ):
        assert words in text
    make_pages(FolderRecord(folder), tmp_path / "again", printed=PRINTED)
    assert (tmp_path / "again" / "calendar-a4.pdf").read_bytes() == data
