"""When teams cannot play: told in words, added for one day or several, taken out again."""

from datetime import date, time
from pathlib import Path

import pytest

from cases.planned_season import write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.planning.rule import Rule
from wholeball.usecases.set_absences import (
    MOST_DAYS,
    Absence,
    AbsencesShown,
    NewAbsence,
    add_absence,
    drop_absence,
    show_absences,
)

HEAD = "team,weekday,date,from,until,strength,cost,why\n"
TEAMS = ("Ash", "Birch", "Cedar", "Dogwood")
FIRST, LAST = date(2027, 1, 4), date(2027, 2, 14)
"""The days of the season."""


@pytest.fixture
def record(tmp_path: Path) -> FolderRecord:
    return FolderRecord(write_folder(tmp_path / "season"))


def text(record: FolderRecord) -> str:
    return (record.path / "absences.csv").read_text(encoding="utf-8")


def hold(record: FolderRecord, rows: str) -> None:
    (record.path / "absences.csv").write_text(HEAD + rows, encoding="utf-8")


def test_where_nobody_is_absent_the_teams_are_offered(record: FolderRecord) -> None:
    assert show_absences(record) == AbsencesShown(rows=(), teams=TEAMS)


def test_every_way_to_be_absent_is_written_and_told(record: FolderRecord) -> None:
    for new in (
        NewAbsence(team="Ash", weekday="monday", opens=time(20), why="=evening classes"),
        NewAbsence(team="Birch", first=FIRST, cost=3),
        NewAbsence(team="Cedar", closes=time(19), cost=10_000),
        NewAbsence(team="Dogwood", first=date(2027, 2, 12), last=LAST, why="exams"),
    ):
        add_absence(record, new)
    assert text(record) == HEAD + (
        "Ash,monday,,20:00,,,,'=evening classes\n"
        "Birch,,2027-01-04,,,wish,3,\n"
        "Cedar,,,,19:00,wish,10000,\n"
        "Dogwood,,2027-02-12,,,,,exams\n"
        "Dogwood,,2027-02-13,,,,,exams\n"
        "Dogwood,,2027-02-14,,,,,exams\n"
    )
    assert show_absences(record).rows == (
        Absence(
            row=2,
            last_row=2,
            team="Ash",
            says="Ash cannot play on Mondays from 20:00 on.",
            strength="must",
            cost=0,
            why="=evening classes",
        ),
        Absence(
            row=3,
            last_row=3,
            team="Birch",
            says="Birch would rather not play on Monday 4 January.",
            strength="wish",
            cost=3,
            why="",
        ),
        Absence(
            row=4,
            last_row=4,
            team="Cedar",
            says="Cedar would rather not play on any night before 19:00.",
            strength="wish",
            cost=10_000,
            why="",
        ),
        Absence(
            row=5,
            last_row=7,
            team="Dogwood",
            says="Dogwood cannot play on Friday 12 February to Sunday 14 February.",
            strength="must",
            cost=0,
            why="exams",
        ),
    )


def test_what_is_added_is_the_rule_that_a_plan_is_held_to(record: FolderRecord) -> None:
    add_absence(record, NewAbsence(team="Ash", weekday="monday", closes=time(19), cost=5))
    assert read_folder(record).planning.absences == (
        Rule(
            rule="absences.csv row 2",
            kind="absent",
            strength="wish",
            cost=5,
            teams=(TeamId("Ash"),),
            params={"weekdays": ("monday",), "until": "19:00"},
        ),
    )


@pytest.mark.parametrize("one", [FIRST, LAST])
def test_the_first_and_the_last_day_of_the_season_are_taken(
    record: FolderRecord, one: date
) -> None:
    add_absence(record, NewAbsence(team="Ash", first=one))
    assert text(record) == f"{HEAD}Ash,,{one},,,,,\n"


@pytest.mark.parametrize(
    ("first", "last", "says"),
    [
        (date(2027, 1, 3), None, "2027-01-03 is no day of the season."),
        (date(2027, 2, 15), None, "2027-02-15 is no day of the season."),
        (date(2027, 2, 14), date(2027, 2, 15), "2027-02-15 is no day of the season."),
    ],
)
def test_days_beyond_the_season_are_refused(
    record: FolderRecord, first: date, last: date | None, says: str
) -> None:
    with pytest.raises(WholeballError) as refused:
        add_absence(record, NewAbsence(team="Ash", first=first, last=last))
    assert (refused.value.code, refused.value.says) == ("outside_season", says)
    assert not record.has("absences.csv")


def test_so_many_days_on_end_are_taken_and_no_more(tmp_path: Path) -> None:
    season = (
        'schema = 1\nname = "Long"\ntimezone = "UTC"\n'
        "first_day = 2027-01-04\nlast_day = 2027-06-30\n"
    )
    record = FolderRecord(write_folder(tmp_path / "long", season_toml=season))
    last = date.fromordinal(FIRST.toordinal() + MOST_DAYS - 1)
    add_absence(record, NewAbsence(team="Ash", first=FIRST, last=last))
    (shown,) = show_absences(record).rows
    assert (shown.row, shown.last_row) == (2, MOST_DAYS + 1)
    beyond = date.fromordinal(last.toordinal() + 1)
    with pytest.raises(WholeballError, match=f"These are {MOST_DAYS + 1} days"):
        add_absence(record, NewAbsence(team="Birch", first=FIRST, last=beyond))


def test_what_stands_there_already_is_refused(record: FolderRecord) -> None:
    rows = "Ash,,2027-01-11,19:00,,wish,3,\n"
    hold(record, rows)
    add_absence(record, NewAbsence(team="Ash", first=date(2027, 1, 11)))
    with pytest.raises(WholeballError) as refused:
        add_absence(
            record,
            NewAbsence(team="Ash", first=FIRST, last=date(2027, 1, 17), opens=time(19)),
        )
    assert str(refused.value) == (
        "It stands in the list already: Ash would rather not play on Monday 11 January from "
        "19:00 on. Take that out first, to change it."
    )
    assert text(record) == f"{HEAD}{rows}Ash,,2027-01-11,,,,,\n"


def test_a_team_that_there_is_not_is_refused(record: FolderRecord) -> None:
    with pytest.raises(InputFaults) as refused:
        add_absence(record, NewAbsence(team="Elm", weekday="monday"))
    assert [one.code for one in refused.value.faults] == ["unknown_team"]
    assert not record.has("absences.csv")


def test_days_on_end_stand_together_only_where_all_else_is_alike(record: FolderRecord) -> None:
    hold(
        record,
        "Ash,,2027-01-11,,,,,\n"
        "Ash,,2027-01-12,,,,,\n"
        "Ash,,2027-01-13,19:00,,,,\n"
        "\n"
        "Ash,,2027-01-14,19:00,,,,\n"
        "Ash,,2027-01-16,19:00,,,,\n"
        "Birch,,2027-01-17,19:00,,,,\n",
    )
    assert [(one.row, one.last_row, one.says) for one in show_absences(record).rows] == [
        (2, 3, "Ash cannot play on Monday 11 January and Tuesday 12 January."),
        (4, 4, "Ash cannot play on Wednesday 13 January from 19:00 on."),
        (6, 6, "Ash cannot play on Thursday 14 January from 19:00 on."),
        (7, 7, "Ash cannot play on Saturday 16 January from 19:00 on."),
        (8, 8, "Birch cannot play on Sunday 17 January from 19:00 on."),
    ]


def test_an_absence_is_taken_out_whole_and_all_else_stays(record: FolderRecord) -> None:
    hold(record, "Ash,monday,,,,,, \nBirch,,2027-01-11,,,,,\nBirch,,2027-01-12,,,,,\n")
    drop_absence(record, 3, 4)
    assert text(record) == f"{HEAD}Ash,monday,,,,,, \n"


@pytest.mark.parametrize(("row", "last"), [(1, 1), (2, 4), (4, 4), (3, 2), (2, 2 + MOST_DAYS)])
def test_rows_that_are_not_there_are_refused_and_nothing_goes(
    record: FolderRecord, row: int, last: int
) -> None:
    rows = "Ash,monday,,,,,,\nBirch,,2027-01-11,,,,,\n"
    hold(record, rows)
    with pytest.raises(WholeballError) as refused:
        drop_absence(record, row, last)
    assert refused.value.code == "gone"
    assert text(record) == HEAD + rows
