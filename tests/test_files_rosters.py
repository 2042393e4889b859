"""Rosters are read whole, or everything that is wrong with them is named at once."""

from datetime import date
from pathlib import Path

import pytest

from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.rosters import read_rosters
from wholeball.files.table import Table
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.league.league import League, Team
from wholeball.league.player import Player, Rosters
from wholeball.rulebook.editions import edition

LEAGUE = League(
    name="Lantern Hill",
    timezone="Europe/London",
    first_day=date(2026, 9, 1),
    last_day=date(2026, 12, 1),
    teams=tuple(Team(team=TeamId(name), pool=PoolId("A")) for name in ("Reds", "Blues")),
)
RULES = edition("laws-2025-26").roster
THREE = RULES.model_copy(update={"maximum": 3, "ref": "H 3.1"})
HEAD = "team,number,name,captain\n"
OWN = "student ids do not belong in the folder"


def read(data: str) -> tuple[Rosters, Table]:
    return read_rosters(data.encode(), LEAGUE, THREE)


def at(row: int, column: str) -> Place:
    return Place(file="rosters.csv", row=row, column=column)


@pytest.mark.parametrize(
    "change", [("", ""), (",", ";"), ("\n", "\r\n"), ("team,n", "\ufeffteam,n")]
)
def test_a_roster_is_read_in_its_order_with_and_without_numbers(
    change: tuple[str, str],
) -> None:
    rows = (
        "Reds,07,Ana Brandreth,yes\nReds,,\u0646\u0648\u0631 Tal,no\nBlues,7,Wim \U0001f98a,\n"
    )
    old, new = change
    rosters, table = read((HEAD + rows).replace(old, new) if old else HEAD + rows)
    assert table.faults == []
    assert rosters == {
        TeamId("Reds"): (
            Player(name="Ana Brandreth", number=7, is_captain=True),
            Player(name="\u0646\u0648\u0631 Tal"),
        ),
        TeamId("Blues"): (Player(name="Wim \U0001f98a", number=7),),
    }


def test_07_is_the_number_7_and_is_worn_once_in_a_team() -> None:
    found = read(HEAD + "Reds,7,Ana,\nReds,07,Bea,\nBlues,7,Cy,\n")[1].faults
    assert found == [
        Fault(
            code="duplicate",
            place=at(3, "number"),
            says="number 7 of Reds stands on row 2 too.",
            value="7",
            cure="Give another number, or leave it empty.",
        )
    ]


@pytest.mark.parametrize("column", ["student_id", "Student ID", "id"])
def test_a_column_of_student_ids_is_refused(column: str) -> None:
    with pytest.raises(InputFaults) as refused:
        read(f"team,number,name,{column}\nReds,7,Ana,30291\n")
    (only,) = refused.value.faults
    assert only.says == f"column {column.lower()!r}: {OWN}."
    assert (only.code, only.place.row) == ("private", 1)
    assert only.cure == "Take the column out, and delete copies of the file that have it."


def test_five_digits_in_a_name_are_taken_for_an_id_and_never_repeated_and_four_are_not() -> (
    None
):
    found = read(HEAD + "Reds,,Ana 3029,\nReds,,Bea 30291,\n")[1].faults
    assert found == [
        Fault(
            code="private",
            place=at(3, "name"),
            says=f"the name holds a long number; {OWN}.",
            cure="Leave the number out.",
        )
    ]


def test_every_fault_of_the_rosters_comes_at_once() -> None:
    rows = (
        "Redz,1,Ana,\nReds,100,Bea,\nReds,1,=Cy,\nReds,2,Di,maybe\nReds,3,,\n"
        "Reds,4,Ed,yes\nReds,5,Flo,yes\n"
    )
    found = read(HEAD + rows)[1].faults
    assert sorted((one.place.row, one.place.column, one.code) for one in found) == [
        (2, "team", "unknown_team"),
        (3, "number", "range"),
        (4, "name", "formula"),
        (5, "captain", "unknown_value"),
        (6, "name", "missing"),
        (8, "captain", "duplicate"),
    ]


def test_a_name_twice_and_one_player_too_many_are_doubts_and_read() -> None:
    rosters, table = read(
        HEAD + "Reds,1,Ana,\nReds,2,ana,\nReds,3,Bo,\nReds,4,Cy,\nReds,5,Di,\n"
    )
    assert [(one.level, one.place.row, one.code) for one in table.faults] == [
        ("doubt", 3, "duplicate"),
        ("doubt", 5, "limits"),
    ]
    assert len(rosters[TeamId("Reds")]) == 5


def test_the_folder_takes_timetable_and_rosters_or_tells_their_faults_with_the_rest(
    tmp_path: Path,
) -> None:
    files = {
        "season.toml": 'schema = 1\nname = "x"\ntimezone = "Europe/London"\n'
        "first_day = 2026-09-01\nlast_day = 2026-12-01\n",
        "rulebook.toml": 'base = "laws-2025-26"\n',
        "teams.csv": "team\nReds\nBlues\n",
        "results.csv": "game,round,home,away,home_goals,away_goals\n",
        "timetable.csv": "game,round,date,start,field,home,away\n"
        "1,1,2026-10-13,19:00,1,Reds,Blues\n",
        "rosters.csv": "team,number,name\nReds,7,Ana\n",
    }
    for name, text in files.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    read_one = read_folder(FolderRecord(tmp_path))
    assert [one.game for one in read_one.timetable] == ["1"]
    assert read_one.rosters == {TeamId("Reds"): (Player(name="Ana", number=7),)}
    (tmp_path / "season.toml").write_text("", encoding="utf-8")
    (tmp_path / "timetable.csv").write_text("game\n", encoding="utf-8")
    (tmp_path / "rosters.csv").write_text("team,number,name\nReds,x,Ana\n", encoding="utf-8")
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(tmp_path))
    assert {one.place.file for one in refused.value.faults} == {
        "season.toml",
        "timetable.csv",
        "rosters.csv",
    }
