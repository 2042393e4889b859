"""A ruling changes the result of a game in a season folder, or gives it one."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from cases.logged import Timed, played
from cases.logged_season import (
    AWARDED,
    FOLDER,
    G1,
    PLAIN,
    RULINGS,
    TIMETABLE,
    faults_of,
    recorded,
    written,
)
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.happenings import BrokenOff, PeriodStarted
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId
from wholeball.season.ruling import Ruling


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return written(tmp_path, {})


@pytest.mark.parametrize(
    ("happened", "code"),
    [
        ([(1, 0, PeriodStarted())], "not_ended"),
        (played(3, 2)[:-1], "not_ended"),
        (
            [(1, 0, PeriodStarted()), (1, 90, BrokenOff(why="disorder", to_blame="away"))],
            "to_coordinator",
        ),
    ],
)
def test_a_game_that_goes_on_or_waits_has_no_result_until_a_ruling_gives_it_one(
    folder: Path, happened: list[Timed], code: str
) -> None:
    recorded(folder, "g1", happened)
    read = read_folder(FolderRecord(folder))
    assert read.season.results == ()
    assert [(one.code, one.level) for one in read.remarks] == [(code, "note")]
    written(folder, {"rulings.csv": AWARDED})
    read = read_folder(FolderRecord(folder))
    assert [(one.how, one.home_goals, one.away_goals) for one in read.season.results] == [
        ("awarded", 0, 3)
    ]
    assert read.remarks == ()


def test_a_game_that_waits_and_stands_by_a_ruling_counts_as_played_without_a_remark(
    folder: Path,
) -> None:
    broken = (1, 2000, BrokenOff(why="disorder", to_blame="away"))
    recorded(folder, "g1", [*played(3, 2)[:-3], broken])
    stands = RULINGS + "4,2026-10-08,g1,stands,,,,H 12,It was nearly over.\n"
    read = read_folder(FolderRecord(written(folder, {"rulings.csv": stands})))
    assert [(one.how, one.home_goals, one.away_goals) for one in read.season.results] == [
        ("played", 3, 2)
    ]
    assert read.remarks == ()


def test_a_ruling_changes_the_result_of_a_log_and_keeps_the_score_played(folder: Path) -> None:
    recorded(folder, "g1", played(3, 2))
    read = read_folder(FolderRecord(written(folder, {"rulings.csv": AWARDED})))
    assert read.season.results == (
        replace(
            G1,
            how="awarded",
            home_goals=0,
            away_goals=3,
            played_score=(3, 2),
            ruling=4,
            before="played",
        ),
    )
    assert read.season.rulings == (
        Ruling(
            number=4,
            game=GameId("g1"),
            day=date(2026, 10, 9),
            ruled="awarded",
            goals=(0, 3),
            ref="H 3.5",
            why="An ineligible player",
        ),
    )


def test_a_ruling_changes_a_result_of_results_csv_too(folder: Path) -> None:
    read = read_folder(
        FolderRecord(written(folder, {"results.csv": PLAIN, "rulings.csv": AWARDED}))
    )
    plain = replace(G1, home_cards=None, away_cards=None)
    assert read.season.results == (
        replace(
            plain,
            how="awarded",
            home_goals=0,
            away_goals=3,
            played_score=(3, 2),
            ruling=4,
            before="played",
        ),
    )


def test_a_ruling_gives_a_game_a_result_that_was_never_played(folder: Path) -> None:
    rows = RULINGS + "1,,g2,forfeit,away,,,H 4,Did not come\n2,,g3,stands,,,,H 9,No protest\n"
    read = read_folder(FolderRecord(written(folder, {"rulings.csv": rows})))
    assert [(one.game, one.how, one.by, one.ruling) for one in read.season.results] == [
        ("g2", "forfeit", "away", 1)
    ]
    assert read.remarks == (
        Fault(
            code="no_result",
            place=Place(file="rulings.csv"),
            says="ruling 2 lets game g3 stand, which has no result.",
            value="g3",
            cure="Enter the game, or mend the ruling.",
            level="doubt",
        ),
    )


def test_a_ruling_about_no_game_is_offered_the_nearest_of_both_tables(folder: Path) -> None:
    rows = RULINGS + "1,,g11,annulled,,,,H 1,x\n2,,h77,annulled,,,,H 1,x\n"
    plain = FOLDER["results.csv"] + "h71,1,Herons,Otters,3,2\n"
    written(folder, {"rulings.csv": rows, "results.csv": plain})
    assert [(one.place.row, one.code, one.cure) for one in faults_of(folder)] == [
        (2, "unknown_game", "Did you mean g1?"),
        (3, "unknown_game", "Did you mean h71?"),
    ]


@pytest.mark.parametrize("file", ["results.csv", "timetable.csv"])
def test_a_row_that_could_not_be_read_makes_no_ruling_about_its_game_wrong(
    folder: Path, file: str
) -> None:
    rulings = RULINGS + "1,,g2,annulled,,,,H 1,x\n"
    bad = {
        "results.csv": FOLDER["results.csv"] + "g2,1,Voles,Herons,x,2\n",
        "timetable.csv": TIMETABLE.replace("g2,1", "g2,x"),
    }
    written(folder, {"rulings.csv": rulings, file: bad[file]})
    assert [(one.place.file, one.code) for one in faults_of(folder)] == [(file, "type")]


def test_rulings_without_a_league_to_hold_them_to_are_looked_at_cell_by_cell(
    folder: Path,
) -> None:
    rulings = RULINGS + "x,,nowhere,annulled,,,,H 1,x\n"
    written(folder, {"rulings.csv": rulings})
    (folder / "teams.csv").unlink()
    assert [(one.place.file, one.code) for one in faults_of(folder)] == [
        ("teams.csv", "missing_file"),
        ("rulings.csv", "type"),
    ]
