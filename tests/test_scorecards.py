"""The command prints a night's scorecards from a season folder, or says what is missing."""

import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from cases.command_line import Run

LEAGUE = Path(__file__).resolve().parents[1] / "examples" / "lantern-hill"


def words(pdf: Path) -> list[str]:
    return [re.sub(r"\s+", " ", page.extract_text()) for page in PdfReader(pdf).pages]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for file in filter(Path.is_file, LEAGUE.iterdir()):
        (tmp_path / file.name).write_bytes(file.read_bytes())
    return tmp_path


def test_a_night_is_printed_in_the_order_of_start_and_field(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "night.pdf"
    told = run("sheets", "scorecards", LEAGUE, "--night", "2026-10-20", "--out", out)
    assert told == (0, f"{out}: 4 games.\n", "")
    cards, more, slips = words(out)
    assert re.findall(r"Play-off game (P\d)", cards + more) == ["P1", "P2", "P3", "P4"]
    assert "Kicks: 4 each, then in pairs (H 10.4)" in cards
    assert "Ratings, for the officials alone." in slips


def test_a_scorecard_holds_no_rating_and_no_ruling_of_its_game(run: Run, folder: Path) -> None:
    results = (folder / "results.csv").read_text(encoding="utf-8").splitlines()
    ruled = [f"{line}Adaeze Abernwy is suspended" for line in results if line.startswith("W53")]
    kept = [line for line in results if not line.startswith("W53")]
    (folder / "results.csv").write_text("\n".join([*kept, *ruled]), encoding="utf-8")
    out = folder / "night.pdf"
    told = run("sheets", "scorecards", folder, "--night", "2026-10-13", "--out", out)
    assert told.status == 0
    before_slips = " ".join(
        page for page in words(out) if "for the officials alone" not in page
    )
    assert "Adaeze Abernwy" in before_slips
    assert "suspended" not in before_slips
    assert "ating" not in before_slips
    assert re.findall(r"[0-9]{5,}", before_slips) == []


def test_a_night_without_games_is_refused_with_the_nights_that_have_some(
    run: Run, tmp_path: Path
) -> None:
    out = tmp_path / "night.pdf"
    told = run("sheets", "scorecards", LEAGUE, "--night", "2026-10-14", "--out", out)
    assert (told.status, told.out) == (1, "")
    assert f"No game of {LEAGUE / 'timetable.csv'} is on 2026-10-14." in told.err
    assert "2026-10-13, 2026-10-20" in told.err
    assert not out.exists()


def test_a_folder_without_a_timetable_is_told_to_list_its_games(run: Run, folder: Path) -> None:
    (folder / "timetable.csv").unlink()
    told = run(
        "sheets", "scorecards", folder, "--night", "2026-10-13", "--out", folder / "x.pdf"
    )
    assert told.status == 1
    assert "List its games in timetable.csv." in told.err


def test_names_may_be_left_to_be_written(run: Run, folder: Path) -> None:
    (folder / "rosters.csv").unlink()
    out = folder / "night.pdf"
    told = run("sheets", "scorecards", folder, "--night", "2026-10-13", "--out", out)
    assert told.status == 0
    assert "Adaeze" not in " ".join(words(out))


def test_student_ids_in_the_rosters_stop_the_printing(run: Run, folder: Path) -> None:
    (folder / "rosters.csv").write_text("team,student_id,name\n", encoding="utf-8")
    told = run(
        "sheets", "scorecards", folder, "--night", "2026-10-13", "--out", folder / "x.pdf"
    )
    assert told.status == 1
    assert "student ids do not belong in the folder" in told.err
    assert not (folder / "x.pdf").exists()


def test_a_night_that_is_no_day_is_refused(run: Run) -> None:
    told = run("sheets", "scorecards", LEAGUE, "--night", "tuesday")
    assert told.status == 2


def test_pages_of_a_league_name_no_player(run: Run, tmp_path: Path) -> None:
    assert run("pages", LEAGUE, tmp_path / "pages").status == 0
    assert list((tmp_path / "pages").glob("scorecards*")) == []
    told = "".join(file.read_text("utf-8") for file in (tmp_path / "pages").glob("*.html"))
    assert "Adaeze Abernwy" not in told
