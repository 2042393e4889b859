"""Odd and impossible schedules get exactly the outcome and the code that the check data names.

Each sentence of a row is written into a season folder as a coordinator would, and read or
planned. What crews make of a timetable waits for its room, and is skipped by name.
"""

from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final, NamedTuple
from zoneinfo import ZoneInfo

import pytest
from benchmarks.instances import SIZES, season

from cases.planned_season import RESULTS, SEASON, write_folder
from external.cases import Case, by_id, read
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.local_times import moment_of
from wholeball.files.problem import problem_of
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.planning.answer import Plan
from wholeball.planning.days import WEEKDAYS
from wholeball.reports.timetable_words import not_proved, proof_line
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.plan import plan
from wholeball.usecases.plan_timetable import plan_timetable

ROWS: list[Case] = [row for row in read("bad_inputs.jsonl") if row["area"] == "schedule"]
NOW: Final = datetime(2026, 12, 1, 12, tzinfo=UTC)
ZONE: Final = ZoneInfo("America/New_York")
LONG: Final = SEASON.replace("2027-01-04", "2026-08-01").replace("2027-02-14", "2028-12-31")
TIMETABLE: Final = "game,round,date,start,field,home,away\n"
CREWS: Final = "what crews make of a timetable waits for crews"


class Outcome(NamedTuple):
    outcome: str
    code: str


def test_the_file_holds_rows_about_schedules() -> None:
    assert ROWS


@pytest.mark.parametrize("row", by_id(ROWS))
def test_a_schedule_gets_the_outcome_the_row_names(row: Case, tmp_path: Path) -> None:
    expected = Outcome(row["expected"]["outcome"], row["expected"]["code"])
    told = str(row["input"].get("text") or row["input"].get("make"))
    match row["input"]["kind"]:
        case "date":
            outcome = of_date(tmp_path, told)
        case "datetime":
            outcome = of_moment(told)
        case _:
            if told not in RECIPES:
                pytest.fail(f"{row['id']}: no recipe for {told!r}; write one")
            outcome = RECIPES[told](tmp_path)
    assert outcome == expected


def of_folder(folder: Path) -> Outcome:
    """Return what planning a folder comes to; all its faults have one code."""
    try:
        found = plan_timetable(
            FolderRecord(folder), Budget(seconds=5, workers=1), now=NOW, writes=False
        )
    except InputFaults as refused:
        (code,) = {fault.code for fault in refused.faults}
        return Outcome("reject", code)
    except WholeballError as refused:
        return Outcome("reject", refused.code)
    doubts = {one.code for one in found.remarks if one.level == "doubt"}
    if not doubts:
        return Outcome("accept", "ok")
    (code,) = doubts
    return Outcome("warn", code)


def of_date(folder: Path, told: str) -> Outcome:
    """Write the day into a timetable, and into the weekly slots where there is such a day."""
    day = f"{told.removeprefix('year ')}-09-10" if told.startswith("year") else told
    row = f"1,1,{day},19:00,Meadow 1,Ash,Birch\n"
    write_folder(folder, season_toml=LONG, timetable_csv=f"{TIMETABLE}{row}")
    try:
        found = read_folder(FolderRecord(folder))
    except InputFaults as refused:
        (code,) = {fault.code for fault in refused.faults}
        return Outcome("reject", code)
    (fixture,) = found.timetable
    assert fixture.day == date.fromisoformat(day)
    weekday = WEEKDAYS[fixture.day.weekday()]
    header = "field,weekday,from,until\n"
    write_folder(
        folder, season_toml=LONG, slots_csv=f"{header}Meadow 1,{weekday},18:00,20:00\n"
    )
    assert fixture.day in {
        slot.night for slot in read_folder(FolderRecord(folder)).planning.slots
    }
    return Outcome("accept", "ok")


def of_moment(told: str) -> Outcome:
    """Read the moment as the command line and the files do, in the zone named or the campus's."""
    text, _, zone = told.partition(" America/")
    try:
        found = moment_of(text, ZoneInfo(f"America/{zone}") if zone else ZONE)
    except WholeballError as refused:
        return Outcome("reject", refused.code)
    assert found.at.tzinfo is UTC
    return Outcome("accept", "assumed_zone" if found.is_assumed else "ok")


def too_few_places(folder: Path) -> Outcome:
    """Eight teams that meet, four of them once more: forty games; two fields on six evenings."""
    teams = "".join(f"Team {n},A\n" for n in range(8)) + "".join(
        f"Other {n},B\n" for n in range(4)
    )
    slots = "field,weekday,first_date,last_date,from,until\n" + "".join(
        f"Meadow {n},monday,2027-01-04,2027-02-08,18:00,20:45\n" for n in (1, 2)
    )
    planning = "schema = 1\n[pools.B]\nmeetings = 2\n"
    write_folder(
        folder, teams_csv=f"team,pool\n{teams}", slots_csv=slots, planning_toml=planning
    )
    with pytest.raises(WholeballError, match=r"40 games need 40 places.* 36: 4 too few"):
        problem_of(read_folder(FolderRecord(folder)))
    return of_folder(folder)


def only_mondays(folder: Path) -> Outcome:
    others = "".join(f"Ash,{day}\n" for day in WEEKDAYS if day != "monday")
    slots = "field,weekday,from,until\n" + "".join(
        f"Meadow {n},{day},18:00,21:00\n" for n in (1, 2) for day in ("monday", "tuesday")
    )
    closures = "site,date,why\n" + "".join(
        f"Meadow,{day},holiday\n"
        for day in (
            "2027-01-04",
            "2027-01-11",
            "2027-01-18",
            "2027-01-25",
            "2027-02-01",
            "2027-02-08",
        )
    )
    write_folder(
        folder,
        absences_csv=f"team,weekday\n{others}",
        slots_csv=slots,
        closures_csv=closures,
    )
    with pytest.raises(InputFaults) as refused:
        plan_timetable(FolderRecord(folder), Budget(seconds=5), now=NOW, writes=False)
    (says,) = [fault.says for fault in refused.value.faults]
    assert "Ash cannot play on Tuesdays" in says
    assert "closures.csv row 2 (holiday)" in says
    assert "Thursdays" not in says, "only what clashes is told"
    return of_folder(folder)


def itself(folder: Path) -> Outcome:
    return of_timetable(folder, "1,1,2027-01-04,19:00,Meadow 1,Ash,Ash\n")


def at_once(folder: Path) -> Outcome:
    rows = "1,1,2027-01-04,19:00,Meadow 1,Ash,Birch\n2,1,2027-01-04,19:00,Meadow 2,Cedar,Ash\n"
    return of_timetable(folder, rows)


def of_timetable(folder: Path, rows: str) -> Outcome:
    write_folder(folder, timetable_csv=f"{TIMETABLE}{rows}", results_csv=RESULTS)
    return of_folder(folder)


def odd_without_byes(folder: Path) -> Outcome:
    write_folder(
        folder,
        teams_csv="team,pool\nAsh,A\nBirch,A\nCedar,A\n",
        planning_toml="schema = 1\nbyes = false\n",
    )
    return of_folder(folder)


def five_thousand(folder: Path) -> Outcome:
    teams = "".join(f"Team {n},A\n" for n in range(5_000))
    write_folder(
        folder,
        teams_csv=f"team,pool\n{teams}",
        slots_csv="field,weekday,from,until\nMeadow 1,monday,18:00,21:00\n",
    )
    found = read_folder(FolderRecord(folder))
    began = datetime.now(UTC)
    with pytest.raises(WholeballError, match="12,497,500 games need 12,497,500 places"):
        problem_of(found)
    assert (datetime.now(UTC) - began).total_seconds() < 1
    return of_folder(folder)


def out_of_time(folder: Path) -> Outcome:
    """A season of 240 games, and far too little time to prove anything of a plan."""
    del folder
    found = plan(season(SIZES["M"]), Budget(work=0.5))
    assert isinstance(found, Plan)
    assert found.bound < found.total
    (warned,) = not_proved(found)
    assert (
        f"costs {found.total:,}; the best one costs {found.bound:,.0f} at least" in warned.says
    )
    assert proof_line(found).endswith("of its cost could be saved; that was not proved.")
    return Outcome("warn" if warned.level == "doubt" else warned.level, warned.code)


def crews(folder: Path) -> Outcome:
    del folder
    pytest.skip(CREWS)


RECIPES: Final[dict[str, Callable[[Path], Outcome]]] = {
    "40 games, 2 fields x 3 slots x 6 evenings = 36 places": too_few_places,
    "team may play only on Mondays; all Mondays are holidays": only_mondays,
    "6 games at 20:00, 12 officials needed, 9 available": crews,
    "team plays itself": itself,
    "same team in two games at 19:00": at_once,
    "official assigned as referee and playing in the same slot": crews,
    "odd number of teams, no bye allowed": odd_without_byes,
    "5,000 teams, 1 field": five_thousand,
    "solver reaches its time limit": out_of_time,
}
