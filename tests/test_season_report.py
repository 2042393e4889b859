"""The command reports on a season folder, and writes a page and tables for other programs."""

import csv
import json
from pathlib import Path

from openpyxl import load_workbook

from cases.command_line import Run

LEAGUE = Path(__file__).resolve().parents[1] / "examples" / "lantern-hill"


def test_the_report_is_a_page_and_tables_that_say_the_same(run: Run, tmp_path: Path) -> None:
    told = run("report", LEAGUE, "--out", tmp_path / "report")
    assert told.status == 0
    assert "Given up: 1 forfeit, 1 default, 1 double forfeit" in told.out
    written = sorted(path.name for path in (tmp_path / "report").iterdir() if path.is_file())
    assert written == [
        "season-report-divisions.csv",
        "season-report-divisions.xlsx",
        "season-report-weeks.csv",
        "season-report-weeks.xlsx",
        "season-report.html",
    ]
    text = (tmp_path / "report" / "season-report-weeks.csv").read_text(encoding="utf-8")
    header, *rows = csv.reader(text.splitlines())
    sheet = load_workbook(tmp_path / "report" / "season-report-weeks.xlsx").active
    assert sheet is not None
    first, *others = sheet.iter_rows(values_only=True)
    assert list(first) == header
    assert [row[1:3] for row in others] == [(int(row[1]), int(row[2])) for row in rows]
    page = (tmp_path / "report" / "season-report.html").read_text(encoding="utf-8")
    assert "Library Fines" not in page
    assert "Adaeze" not in page


def test_values_for_programs_agree_with_what_was_written_down(run: Run) -> None:
    found = json.loads(run("report", LEAGUE, "--json").out)
    total = found["total"]
    given_up = total["forfeits"] + total["defaults"] + total["double_forfeits"]
    rows = list(csv.DictReader((LEAGUE / "results.csv").read_text("utf-8").splitlines()))
    how = [row["how"] for row in rows]
    assert given_up == sum(one in ("forfeit", "default", "double_forfeit") for one in how)
    assert total["played"] == sum(one in ("played", "awarded") for one in how) + 1
    assert sum(week["played"] for week in found["weeks"]) == total["played"]


def test_a_folder_that_is_none_is_refused_and_nothing_written(run: Run, tmp_path: Path) -> None:
    told = run("report", tmp_path / "none", "--out", tmp_path / "report")
    assert told.status == 1
    assert not (tmp_path / "report").exists()
