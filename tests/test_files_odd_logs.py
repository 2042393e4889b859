"""A log that is damaged, or that does not fit the tables of its folder, is a fault or a doubt."""

from pathlib import Path

import pytest

from cases.logged import certified, log, played
from cases.logged_season import AWARDED, DIGEST, PLAIN, faults_of, recorded, written
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.envelope import stored_line
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId
from wholeball.reports.not_as_played import not_as_played


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return written(tmp_path, {})


def test_a_game_with_a_log_and_a_row_in_results_is_a_fault_naming_both(folder: Path) -> None:
    recorded(folder, "g1", played(3, 2))
    written(folder, {"results.csv": PLAIN})
    assert faults_of(folder) == (
        Fault(
            code="duplicate",
            place=Place(file="results.csv", row=2, column="game"),
            says="game g1 has a result here and a log, games/g1.jsonl.",
            value="g1",
            cure="A result stands once: take the row out, or the log.",
        ),
    )
    (folder / "games" / "g1.jsonl").write_bytes(b"")
    assert len(read_folder(FolderRecord(folder)).season.results) == 1


def test_a_log_without_a_row_in_the_timetable_is_a_doubt(folder: Path) -> None:
    recorded(folder, "g11", played(3, 2))
    recorded(folder, "quite other", played(3, 2))
    read = read_folder(FolderRecord(folder))
    assert read.season.results == ()
    assert [(one.place.file, one.level, one.cure) for one in read.remarks] == [
        (
            "games/g11.jsonl",
            "doubt",
            "Add a row for it to timetable.csv; if it is game g1 there, write g11 in that row.",
        ),
        ("games/quite other.jsonl", "doubt", "Add a row for it to timetable.csv."),
    ]
    assert read.remarks[0].says == (
        "g11 is no game of timetable.csv; its log counts for nothing."
    )


def test_other_files_beside_the_logs_are_passed_over_and_odd_names_doubted(
    folder: Path,
) -> None:
    recorded(folder, "g1", played(3, 2))
    games = folder / "games"
    (games / ".g1.jsonl").write_bytes(b"x")
    (games / "g1.txt").write_bytes(b"x")
    (games / "caf\u00e9.jsonl").write_bytes(b"x")
    read = read_folder(FolderRecord(folder))
    assert [(one.place.file, str(one)) for one in read.remarks] == [
        (
            "games/caf\u00e9.jsonl",
            (
                "games/caf\u00e9.jsonl: caf\u00e9 is no name that a log can have. "
                "Take the file out."
            ),
        )
    ]


def test_a_broken_chain_is_a_doubt_with_device_and_number_and_the_game_counts(
    folder: Path,
) -> None:
    entries = log(folder, "g1", played(3, 2), book=DIGEST)
    kept = [*entries, certified("g1", entries, book=DIGEST)]
    torn = [one for one in kept if (one.said.dev, one.said.seq) != ("phone", len(entries))]
    lines = b"".join(stored_line(one) + b"\n" for one in torn)
    (folder / "games" / "g1.jsonl").write_bytes(lines)
    read = read_folder(FolderRecord(folder))
    assert [(one.code, one.level, one.says) for one in read.remarks] == [
        (
            "head",
            "doubt",
            "Device phone had written up to entry 9, and the log ends before it.",
        ),
        (
            "not_ended",
            "note",
            "the game has not ended by what counts of its log, and has no result yet.",
        ),
    ]
    swapped = [one._replace(hash="0" * 64) if one.said.seq == 3 else one for one in entries]
    lines = b"".join(stored_line(one) + b"\n" for one in swapped)
    (folder / "games" / "g1.jsonl").write_bytes(lines)
    written(folder, {"rulings.csv": AWARDED})
    read = read_folder(FolderRecord(folder))
    assert [one.played_score for one in read.season.results] == [(1, 0)]
    assert read.season.damaged == {GameId("g1")}
    (pool,) = read.season.league.pools
    told = not_as_played(read.season, pool, shown=1, is_newest=True, names={})
    assert [str(one.says) for one in told][-1] == (
        "Game g1, Herons v Otters: counts by what can be read; part of its log is damaged."
    )
    assert [one.says for one in read.remarks] == [
        "Entry 3 of device phone is not as it was written; it and what follows are left out."
    ]


def test_malformed_lines_of_every_log_are_faults_beside_those_of_the_tables(
    folder: Path,
) -> None:
    (folder / "games").mkdir()
    (folder / "games" / "g1.jsonl").write_bytes(b"{}\n[]\n")
    (folder / "games" / "g2.jsonl").write_bytes(b"x")
    (folder / "games" / "g3.jsonl").mkdir()
    written(folder, {"teams.csv": "team\nHerons\nherons\nOtters\nVoles\n"})
    assert [(one.place.file, one.place.line, one.code) for one in faults_of(folder)] == [
        ("teams.csv", None, "duplicate"),
        ("games/g1.jsonl", 1, "syntax"),
        ("games/g1.jsonl", 2, "syntax"),
        ("games/g2.jsonl", 1, "torn"),
        ("games/g3.jsonl", None, "storage"),
    ]


def test_a_file_in_place_of_the_folder_of_logs_is_named(folder: Path) -> None:
    games = folder / "games"
    games.write_bytes(b"")
    assert [(one.place.file, one.code) for one in faults_of(folder)] == [("games/", "storage")]
    games.unlink()
    games.symlink_to(folder / "elsewhere")
    assert [(one.place.file, one.code) for one in faults_of(folder)] == [("games/", "storage")]
