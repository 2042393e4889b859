"""What a repair writes of places that are lost and of teams that leave and come."""

import json
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.planned_season import (
    BEFORE,
    GAMES,
    PLANNING,
    QUICK,
    RESULTS,
    TABLE,
    TEAMS,
    done,
    unbroken,
    write_folder,
)
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord

CLOSURES = "closures.csv"
SIX = (
    f"{GAMES}1,1,2027-01-04,18:00,Meadow 1,Ash,Dogwood\n"
    "2,1,2027-01-04,18:55,Meadow 1,Birch,Cedar\n"
    "3,2,2027-01-11,18:00,Meadow 1,Ash,Birch\n"
    "4,2,2027-01-11,18:55,Meadow 1,Cedar,Dogwood\n"
    "5,3,2027-01-18,18:00,Meadow 1,Ash,Cedar\n"
    "6,3,2027-01-18,18:55,Meadow 1,Birch,Dogwood\n"
)
HEADER = "field,site,date,last_date,from,until,why\n"


def test_a_lost_night_is_kept_in_mind_with_the_timetable(run: Run, tmp_path: Path) -> None:
    folder = write_folder(tmp_path)
    done(run, "plan", folder, *QUICK, *BEFORE)
    told = done(run, "repair", folder, "--lost-night", "2027-01-11", *QUICK, *BEFORE)
    assert (folder / CLOSURES).read_text() == f"{HEADER},,2027-01-11,,,,lost\n"
    says = "closures.csv says from now on that this is lost: every field, Monday 11 January."
    assert says in told.out.splitlines()
    assert told.out.splitlines()[-1] == str(folder / CLOSURES)
    read = unbroken(folder)
    assert "2027-01-11" not in {f"{one.day}" for one in read.timetable}
    again = done(run, "plan", folder, *QUICK, "--now", "2026-12-01T11:00", "--json")
    assert "2027-01-11" not in {one["date"] for one in json.loads(again.out)["games"]}


def test_a_night_that_is_closed_already_can_be_lost_and_is_not_written_again(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(tmp_path)
    done(run, "plan", folder, *QUICK, *BEFORE)
    lost = min(f"{one.day}" for one in read_folder(FolderRecord(folder)).timetable)
    closed = f"date,why\n{lost},flood\n"
    write_folder(folder, closures_csv=closed)
    told = done(run, "repair", folder, "--lost-night", lost, *QUICK, *BEFORE)
    assert "closures.csv" not in told.out
    assert (folder / CLOSURES).read_text() == closed
    assert lost not in {f"{one.day}" for one in unbroken(folder).timetable}
    again = done(run, "repair", folder, "--lost-night", lost, *QUICK, *BEFORE)
    assert again.out.startswith("0 games changed; the rest stays as announced.\n")


@pytest.mark.parametrize(
    ("words", "row", "says"),
    [
        (
            ("--lost-night", "2027-01-11@Meadow"),
            ",Meadow,2027-01-11,,,,lost",
            "Meadow, Monday 11",
        ),
        (("--lost-field", "Meadow 2@2027-01-11"), "Meadow 2,,2027-01-11,,,,lost", "Meadow 2, "),
        (
            ("--lost-field", "Meadow 2"),
            "Meadow 2,,2027-01-04,2027-02-14,,,lost",
            "Meadow 2, Monday 4 January to Sunday 14 February.",
        ),
    ],
)
def test_what_is_lost_of_a_site_or_a_field_is_written_after_the_rows_there(
    run: Run, tmp_path: Path, words: tuple[str, str], row: str, says: str
) -> None:
    folder = write_folder(tmp_path, closures_csv=f"{HEADER},,2027-01-25,,,,ball")
    done(run, "plan", folder, *QUICK, *BEFORE)
    tried = done(run, "repair", folder, *words, *QUICK, *BEFORE, "--dry-run")
    assert f"closures.csv would say that this is lost: {says}" in tried.out
    assert (folder / CLOSURES).read_text() == f"{HEADER},,2027-01-25,,,,ball"
    done(run, "repair", folder, *words, *QUICK, *BEFORE)
    assert (folder / CLOSURES).read_text() == f"{HEADER},,2027-01-25,,,,ball\n{row}\n"


def test_a_day_off_that_was_written_down_moves_no_more_games_than_it_must(
    run: Run, tmp_path: Path
) -> None:
    """Ash cannot play on the first Monday, where its game is alone to move."""
    away = "team,date,strength,why\nAsh,2027-01-04,must,a trip\n"
    folder = write_folder(tmp_path, timetable_csv=SIX, absences_csv=away)
    assert run("repair", folder, *QUICK, *BEFORE).err.startswith("Nothing has happened.")
    told = done(run, "repair", folder, "--edited", *QUICK, *BEFORE)
    assert told.out.startswith(
        "1 game changed; the rest stays as announced.\nFewer could not move"
    )
    where = {f"{one.game}": f"{one.day}" for one in unbroken(folder).timetable}
    assert where.pop("1") != "2027-01-04"
    assert where == {row[0]: row[4:14] for row in SIX.splitlines()[2:]}


def test_a_night_that_is_lost_after_it_began_stays_open_for_what_was_played(
    run: Run, tmp_path: Path
) -> None:
    """Rain at 18:40: the game of 18:00 was begun and stays, with no result in yet."""
    rows = (
        f"{GAMES}1,1,2027-01-11,18:00,Meadow 1,Ash,Birch\n"
        "2,1,2027-01-11,18:55,Meadow 1,Cedar,Dogwood\n"
        "3,2,2027-01-18,18:00,Meadow 1,Ash,Cedar\n"
    )
    folder = write_folder(tmp_path, timetable_csv=rows)
    now = ("--now", "2027-01-11T18:40")
    done(run, "repair", folder, "--lost-night", "2027-01-11", *QUICK, *now)
    assert (folder / CLOSURES).read_text() == (
        f"{HEADER}Meadow 1,,2027-01-11,,18:55,,lost\nMeadow 2,,2027-01-11,,19:00,,lost\n"
    )
    where = {f"{one.game}": f"{one.day}" for one in unbroken(folder).timetable}
    assert where["1"] == "2027-01-11"
    assert where["2"] > "2027-01-11"
    assert where["3"] == "2027-01-18"


def test_where_no_repair_is_possible_neither_file_is_written(run: Run, tmp_path: Path) -> None:
    slots = "field,date,from,until\nMeadow 1,2027-01-04,18:00,21:00\n"
    rows = f"{GAMES}1,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
    folder = write_folder(tmp_path, slots_csv=slots, timetable_csv=rows)
    told = run("repair", folder, "--lost-night", "2027-01-04", *QUICK, *BEFORE)
    assert told.status == 1
    assert not (folder / CLOSURES).exists()
    assert (folder / TABLE).read_text() == rows


EVEN_BYES = f"""{PLANNING}
[[rules]]
rule = "equal byes"
kind = "even_byes"
strength = "must"
most = 1
"""


def test_a_team_that_has_left_binds_no_later_repair(run: Run, tmp_path: Path) -> None:
    """It is idle in every week to come, and no other team's byes are held to that."""
    folder = write_folder(tmp_path, teams_csv=f"{TEAMS}Elder,A\n", planning_toml=EVEN_BYES)
    done(run, "plan", folder, *QUICK, *BEFORE)
    done(run, "repair", folder, "--withdraw", "Elder", *QUICK, *BEFORE)
    read = unbroken(folder)
    lost = min(f"{one.day}" for one in read.timetable)
    done(run, "repair", folder, "--lost-night", lost, *QUICK, *BEFORE)
    assert len(unbroken(folder).timetable) == 6


def test_a_team_that_leaves_after_its_first_game_keeps_that_and_binds_nobody(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(
        tmp_path,
        planning_toml=EVEN_BYES,
        timetable_csv=SIX,
        results_csv=f"{RESULTS}1,1,2027-01-04,Ash,Dogwood,2,0\n2,1,2027-01-04,Birch,Cedar,1,0\n",
    )
    now = ("--now", "2027-01-05T09:00")
    done(run, "repair", folder, "--withdraw", "Dogwood", *QUICK, *now)
    assert {f"{one.game}" for one in unbroken(folder).timetable} == {"1", "2", "3", "5"}
    done(run, "repair", folder, "--lost-night", "2027-01-11", *QUICK, *now)
    where = {f"{one.game}": f"{one.day}" for one in unbroken(folder).timetable}
    assert (where["1"], where["2"]) == ("2027-01-04", "2027-01-04")
    assert where["3"] > "2027-01-11"


def test_two_teams_that_come_at_once_meet_each_other_once_and_nobody_who_leaves(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(tmp_path)
    done(run, "plan", folder, *QUICK, *BEFORE)
    write_folder(folder, teams_csv=f"{TEAMS}Elder,A\nFir,A\n")
    words = ("--withdraw", "Dogwood", "--add", "Elder", "--add", "Fir")
    done(run, "repair", folder, *words, *QUICK, *BEFORE)
    games = [frozenset((f"{one.home}", f"{one.away}")) for one in unbroken(folder).timetable]
    stay = ("Ash", "Birch", "Cedar", "Elder", "Fir")
    assert len(games) == len(set(games)) == 10
    assert frozenset.union(*games) == frozenset(stay)
