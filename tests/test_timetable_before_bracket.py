"""The last league night is lost, and the bracket waits: all games come before it, or some are named."""

import json
from pathlib import Path

from cases.command_line import Run
from cases.planned_season import (
    BEFORE,
    PLANNING,
    QUICK,
    TABLE,
    done,
    unbroken,
    write_folder,
)
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord

BRACKET = (
    ("P1", 4, "seed 5", "seed 12"),
    ("P2", 4, "seed 6", "seed 11"),
    ("P3", 4, "seed 7", "seed 10"),
    ("P4", 4, "seed 8", "seed 9"),
    ("Q1", 5, "seed 1", "winner of P4"),
    ("Q2", 5, "seed 2", "winner of P3"),
    ("Q3", 5, "seed 3", "winner of P2"),
    ("Q4", 5, "seed 4", "winner of P1"),
    ("S1", 6, "winner of Q1", "winner of Q4"),
    ("S2", 6, "winner of Q2", "winner of Q3"),
    ("F", 7, "winner of S1", "winner of S2"),
)


def before_a_bracket(folder: Path, *, friday: str) -> Path:
    """Write three pools of four, twelve seeds on a Sunday, and the Friday before kept for rain."""
    fields = "Meadow 1,{0},{1},{2},{3}\nMeadow 2,{0},{1},{2},{3}\n"
    slots = "field,date,from,until,minutes\n" + "".join(
        fields.format(night, "18:00", "20:45", "")
        for night in ("2027-01-21", "2027-01-28", "2027-02-11")
    )
    bracket = "".join(
        f'[[play_offs]]\ngame = "{game}"\nround = {number}\nhome = "{home}"\naway = "{away}"\n'
        for game, number, home, away in BRACKET
    )
    league_only = PLANNING.replace("most = 1\n", 'most = 1\ngames = "league"\n')
    spare = "schema = 1\nspare_nights = [2027-02-12]\n"
    done_by = slots + friday + fields.format("2027-02-14", "10:00", "17:12", "72")
    return write_folder(
        folder,
        teams_csv="team,pool\n" + "".join(f"{p}{n},{p}\n" for p in "ABC" for n in range(1, 5)),
        slots_csv=done_by,
        planning_toml=league_only.replace("schema = 1\n", spare) + bracket,
    )


FRIDAY = "Meadow 1,2027-02-12,18:00,20:45,\nMeadow 2,2027-02-12,18:00,20:45,\n"
AT_TEN_PAST_FIVE = ("--lost-night", "2027-02-11", "--now", "2027-02-11T17:10")


def test_the_last_league_night_is_lost_and_its_games_come_before_the_bracket(
    run: Run, tmp_path: Path
) -> None:
    folder = before_a_bracket(tmp_path, friday=FRIDAY)
    done(run, "plan", folder, *QUICK, *BEFORE)
    bracket = read_folder(FolderRecord(folder)).open_fixtures
    done(run, "repair", folder, *AT_TEN_PAST_FIVE, *QUICK)
    read = unbroken(folder)
    assert read.open_fixtures == bracket
    assert {str(one.away) for one in bracket if one.game == "Q1"} == {"winner of P4"}
    first = min((one.day, one.start) for one in bracket if one.game.startswith("P"))
    assert len(read.timetable) == 18
    assert max((one.day, one.start) for one in read.timetable) < first
    assert f"{max(one.day for one in read.timetable)}" == "2027-02-12"


def test_where_not_all_league_games_come_before_the_bracket_those_to_drop_are_named(
    run: Run, tmp_path: Path
) -> None:
    """Friday has three places for the six games of Thursday, and Sunday none before the bracket."""
    friday = "Meadow 1,2027-02-12,18:00,20:45,\n"
    folder = before_a_bracket(tmp_path, friday=friday)
    done(run, "plan", folder, *QUICK, *BEFORE)
    before = (folder / TABLE).read_bytes()
    lost = [
        one
        for one in read_folder(FolderRecord(folder)).timetable
        if f"{one.day}" == "2027-02-11"
    ]
    told = run("repair", folder, *AT_TEN_PAST_FIVE, *QUICK, "--json")
    cure = json.loads(told.out)["faults"][0]["cure"]
    assert told.status == 1
    assert (folder / TABLE).read_bytes() == before
    named = [one for one in lost if f"{one.game} ({one.home} v {one.away})" in cure]
    assert len(named) == len(lost) - 3
    assert "and rank by points_per_game in rulebook.toml" in cure
    rows = before.decode().splitlines(keepends=True)
    drop = {f"{one.game}" for one in named}
    (folder / TABLE).write_text("".join(row for row in rows if row.split(",")[0] not in drop))
    done(run, "repair", folder, *AT_TEN_PAST_FIVE, *QUICK)
    assert len(unbroken(folder).timetable) == 18 - len(named)
