"""Bad and odd lists of players get exactly the outcome and the code that the check data names.

Each row is added to a team of a new season, as the command does it. Rows of kind `form` wait for
the pages that have one; test_roster_add holds what they ask of a full roster, of two who add at
once and of a person on two teams.
"""

import re
import subprocess
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import NamedTuple

import pytest

from cases.workbooks import inline, remade, sheet_xml, workbook
from external.cases import Case, by_id, read
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.given_list import read_list
from wholeball.files.student_ids import IdKey
from wholeball.kernel.faults import InputFaults
from wholeball.usecases.add_to_roster import Added, add_to_roster
from wholeball.usecases.start_season import start_season

ROSTER = [row for row in read("bad_inputs.jsonl") if row["area"] == "roster"]
ROWS: list[Case] = [row for row in ROSTER if row["input"]["kind"] != "form"]
KEY = IdKey(b"a key for tests, and for nothing else")
MANY = 100_000
MEGABYTES = 200
NESTED = '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]>'
REPORT = 100_000
"""The most bytes of a report, where every row is wrong."""
PRIVATE = "not to be shown"


class Outcome(NamedTuple):
    outcome: str
    code: str


def _lines(row: str) -> bytes:
    return b"student_id,name\n" + "".join(row.format(n) for n in range(MANY)).encode()


def _entities(before: str) -> bytes:
    xml = sheet_xml(inline("student_id", "name") + inline("1", "&b;"), before=before)
    return remade(workbook(), data=xml)


def _external(folder: Path) -> bytes:
    """A sheet that would show a file of this machine, if anything read what it points at."""
    (folder / "private.txt").write_text(PRIVATE)
    return _entities(f'<!DOCTYPE x [<!ENTITY b SYSTEM "file://{folder}/private.txt">]>')


def _one_cell(_: Path) -> bytes:
    xml = sheet_xml(inline("student_id", "name") + inline("1", "x" * 300_000_000))
    return remade(workbook(), data=xml)


RECIPES: dict[str, Callable[[Path], bytes]] = {
    "latin-1 bytes: Zo\\xeb": lambda _: b"student_id,name\n1,Zo\xeb\n",
    "100,000 valid rows": lambda _: _lines("{:08},Ann Lee\n"),
    "100,000 rows, all wrong": lambda _: _lines("{:08}.0,Ann Lee\n"),
    "one 50 MB cell": lambda _: b"student_id,name\n1," + b"x" * 50_000_000,
    "296 KB file that unpacks to 300 MB in one cell": _one_cell,
    "sheet with a nested-entity document type": lambda _: _entities(NESTED),
    "sheet with an external entity to a local file": _external,
    "member named ../../settings.py": lambda _: remade(
        workbook(), member="../../settings.py", data=b"open = True"
    ),
}


def _bytes(row: Case, folder: Path) -> bytes:
    given = row["input"]
    if "hex" in given:
        return bytes.fromhex(given["hex"])
    if "make" in given:
        if given["make"] not in RECIPES:
            pytest.fail(f"{row['id']}: no recipe for {given['make']!r}; write one")
        return RECIPES[given["make"]](folder)
    return str(given["text"]).encode()


def _season(folder: Path) -> Path:
    season = folder / "season"
    start_season(
        FolderRecord(season),
        preset="eight",
        timezone="Europe/London",
        first_day=date(2026, 9, 1),
    )
    book = season / "rulebook.toml"
    free = book.read_text().replace("maximum = 15", 'maximum = "no_limit"')
    book.write_text(free)
    (season / "teams.csv").write_text("team,pool\nPaper Moths,A\n")
    return season


def _added(row: Case, folder: Path) -> Added:
    kind = "csv" if row["input"]["kind"] == "csv" else "xlsx"
    file = folder / f"list.{kind}"
    file.write_bytes(_bytes(row, folder))
    season, day = _season(folder), date(2026, 9, 2)
    return add_to_roster(
        FolderRecord(season), read_list(file), team="Paper Moths", key=KEY, day=day
    )


def _outcome(row: Case, folder: Path) -> Outcome:
    try:
        added = _added(row, folder)
    except InputFaults as error:
        refused = error
    else:
        doubts = {remark.code for remark in added.remarks if remark.level == "doubt"}
        (code,) = doubts or {"ok"}
        return Outcome("warn" if doubts else "accept", code)
    assert not (folder / "season" / "rosters.csv").exists()
    assert len({fault.code for fault in refused.faults}) == 1
    assert len(str(refused).encode()) < REPORT
    assert PRIVATE not in str(refused)
    return Outcome("reject", refused.code)


def test_the_file_holds_rows_about_rosters() -> None:
    assert ROWS
    assert {row["input"]["kind"] for row in ROSTER} == {"csv", "xlsx", "zip", "form"}


@pytest.mark.parametrize("row", by_id(ROSTER))
def test_a_list_gets_the_outcome_the_row_names(row: Case, tmp_path: Path) -> None:
    if row["input"]["kind"] == "form":
        pytest.skip("a form is filled in, and no list is added")
    expected = Outcome(row["expected"]["outcome"], row["expected"]["code"])
    assert _outcome(row, tmp_path) == expected


@pytest.mark.parametrize(
    "row",
    by_id(
        [r for r in ROWS if r["expected"]["outcome"] != "reject" and "make" not in r["input"]]
    ),
)
def test_what_is_taken_reads_back_and_taken_again_changes_nothing(
    row: Case, tmp_path: Path
) -> None:
    added = _added(row, tmp_path)
    season = tmp_path / "season"
    before = (season / "rosters.csv").read_bytes()
    (players,) = read_folder(FolderRecord(season)).rosters.values()
    assert [player.name for player in players] == [one.name for one in added.new]
    assert [player.person for player in players] == [
        KEY.code_of(one.student) for one in added.new
    ]
    again = _again(tmp_path)
    assert (again.new, again.already) == ((), len(added.new))
    assert (season / "rosters.csv").read_bytes() == before


def _again(folder: Path) -> Added:
    (file,) = folder.glob("list.*")
    season, day = folder / "season", date(2026, 10, 2)
    return add_to_roster(
        FolderRecord(season), read_list(file), team="Paper Moths", key=KEY, day=day
    )


@pytest.mark.skipif(not Path("/proc/self/status").is_file(), reason="tells no memory here")
def test_a_hundred_thousand_rows_are_taken_within_the_memory_bound(tmp_path: Path) -> None:
    season = _season(tmp_path)
    (tmp_path / "list.csv").write_bytes(_lines("{:08},Ann Lee\n"))
    program = (
        "import sys; from datetime import date; from pathlib import Path\n"
        "from wholeball.files.folder_record import FolderRecord\n"
        "from wholeball.files.given_list import read_list\n"
        "from wholeball.files.student_ids import IdKey\n"
        "from wholeball.usecases.add_to_roster import add_to_roster\n"
        "season, file = map(Path, sys.argv[1:])\n"
        "add_to_roster(FolderRecord(season), read_list(file), team='Paper Moths',"
        " key=IdKey(b'k' * 32),"
        " day=date(2026, 9, 2))\n"
        "print(Path('/proc/self/status').read_text())\n"
    )
    words = [sys.executable, "-c", program, str(season), str(tmp_path / "list.csv")]
    told = subprocess.run(words, capture_output=True, text=True, check=True)  # noqa: S603
    assert len((season / "rosters.csv").read_bytes().splitlines()) == MANY + 1
    (most,) = re.findall(r"VmHWM:\s*([0-9]+) kB", told.stdout)
    assert int(most) < MEGABYTES * 1024
