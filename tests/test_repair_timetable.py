"""A timetable is repaired as a coordinator types what has happened."""

import json
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.planned_season import (
    BEFORE,
    GAMES,
    PLANNING,
    QUICK,
    TABLE,
    TEAMS,
    planned,
    write_folder,
)
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.problem import problem_of
from wholeball.planning.check import check


def test_rounds_are_weeks_and_a_repair_keeps_those_of_the_games_that_stay(
    run: Run, tmp_path: Path
) -> None:
    """Four teams of one game a week: two games a round, as the calendar has them."""
    weekly = PLANNING.replace("games_a_night", "games_a_week")
    folder = write_folder(tmp_path, planning_toml=weekly)
    planned(run, folder)
    before = {one.game: one for one in read_folder(FolderRecord(folder)).timetable}
    in_time = sorted(before.values(), key=lambda one: (one.day, one.start, one.field))
    weeks = {one.day: one.round for one in in_time}
    assert [one.round for one in in_time] == sorted(one.round for one in in_time)
    assert sorted(weeks.values()) == list(range(1, len(weeks) + 1))
    lost = next(day for day, number in weeks.items() if number == 2)
    told = run("repair", folder, "--lost-night", lost, *QUICK, "--now", "2027-01-03T12:00")
    assert told.status == 0, told.err
    after = sorted(read_folder(FolderRecord(folder)).timetable, key=lambda one: one.day)
    stay = [one for one in after if one == before[one.game]]
    assert {one.day for one in before.values()} - {one.day for one in stay} == {lost}
    assert [one.round for one in after] == sorted(one.round for one in after)


def test_a_lost_night_moves_its_games_and_no_other(run: Run, tmp_path: Path) -> None:
    folder = write_folder(tmp_path)
    before = {one.game: one for one in planned(run, folder).announced}
    lost = min(one.start.night for one in before.values())
    told = run(
        "repair", folder, "--lost-night", lost, *QUICK, "--now", "2027-01-03T12:00", "--json"
    )
    assert told.status == 0, told.err
    values = json.loads(told.out)
    moved = {one["game"] for one in values["moved"]}
    assert values["is_least"]
    assert moved >= {one.game for one in before.values() if one.start.night == lost}
    problem = problem_of(read_folder(FolderRecord(folder)))
    assert check(problem, problem.announced).broken == ()
    after = {one.game: one for one in problem.announced}
    assert lost not in {one.start.night for one in after.values()}
    assert {game for game in before if before[game] != after[game]} == moved


def test_a_team_that_leaves_takes_its_games_along_and_one_that_comes_brings_some(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(tmp_path)
    planned(run, folder)
    now = ("--now", "2027-01-03T12:00")
    told = run("repair", folder, "--withdraw", "Dogwood", *QUICK, *now)
    assert told.status == 0, told.err
    assert len(read_folder(FolderRecord(folder)).timetable) == 3
    write_folder(folder, teams_csv=f"{TEAMS}Elder,A\n")
    told = run("repair", folder, "--add", "Elder", *QUICK, *now)
    assert told.status == 0, told.err
    games = read_folder(FolderRecord(folder)).timetable
    assert {
        one.home if one.away == "Elder" else one.away
        for one in games
        if "Elder" in (one.home, one.away)
    } == {"Ash", "Birch", "Cedar"}
    assert len({one.game for one in games}) == len(games) == 6
    again = run("repair", folder, "--add", "Elder", *now)
    assert again.status == 1
    assert "Elder has 3 games in timetable.csv already." in again.err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "Nothing has happened."),
        (("--lost-night", "2027-01-05"), "2027-01-05 is no night of slots.csv."),
        (("--lost-night", "2027-01-04@Marsh"), "Marsh is no site of slots.csv."),
        (("--lost-field", "Meadow 9"), "Meadow 9 is no field of slots.csv. Did you mean"),
        (("--withdraw", "Ashe"), "Ashe is no team of teams.csv. Did you mean Ash?"),
        (("--lost-night", "soon"), "'soon' is no day."),
    ],
)
def test_what_did_not_happen_changes_nothing(
    run: Run, tmp_path: Path, words: tuple[str, ...], says: str
) -> None:
    rows = f"{GAMES}1,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
    folder = write_folder(tmp_path, timetable_csv=rows)
    told = run("repair", folder, *words, *BEFORE)
    assert told.status == 1
    assert says in told.err
    assert (folder / TABLE).read_text() == rows
