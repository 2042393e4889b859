"""Writes season folders that are to be planned, for tests that change them as they need."""

from pathlib import Path
from typing import Final

import pytest

from cases.command_line import Run, Told
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.problem import problem_of
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.planning.check import check
from wholeball.planning.problem import TimetableProblem

SEASON: Final = """schema = 1
name = "Harbour winter eights"
timezone = "America/New_York"
first_day = 2027-01-04
last_day = 2027-02-14
"""
RULEBOOK: Final = """base = "laws-2025-26"
name = "House rules"
game = { periods = 2, minutes = 20, interval_minutes = 5 }
overtime = { ends = "full_time", periods = 2, minutes = 3, interval_minutes = 1 }
ties = { league = "draw", play_off = "overtime_then_kicks" }
"""
TEAMS: Final = "team,pool\nAsh,A\nBirch,A\nCedar,A\nDogwood,A\n"
QUICK: Final = ("--seconds", "5", "--reproducible")
"""Options of a search that is alike on every machine."""
BEFORE: Final = ("--now", "2026-12-01T10:00")
"""The option that says it is before the season."""
TABLE: Final = "timetable.csv"
GAMES: Final = "game,round,date,start,field,home,away\n"
RESULTS: Final = "game,round,date,home,away,home_goals,away_goals\n"
PLANNING: Final = """schema = 1
turnover_minutes = 10

[[rules]]
rule = "one game a night"
kind = "games_a_night"
strength = "must"
most = 1

[[rules]]
rule = "late"
kind = "even_starts"
strength = "wish"
cost = 5
which = "late"
"""
SLOTS: Final = """field,weekday,date,first_date,last_date,from,until,lights_off,permit_until,minutes
Meadow 1,monday,,,,18:00,21:00,,,
Meadow 2,monday,,2027-01-11,2027-01-25,18:00,,20:30,21:00,60
"""
SLOTS_HEAD: Final = SLOTS[: SLOTS.index("\n") + 1]
SITES: Final = "site\nMeadow\n"
FIELDS: Final = "field,site\nMeadow 1,Meadow\nMeadow 2,Meadow\n"
FOLDER: Final = {
    "season.toml": SEASON,
    "rulebook.toml": RULEBOOK,
    "teams.csv": TEAMS,
    "results.csv": RESULTS,
    "planning.toml": PLANNING,
    "slots.csv": SLOTS,
    "sites.csv": SITES,
    "fields.csv": FIELDS,
}


def write_folder(folder: Path, **changed: str) -> Path:
    """Write the folder with some files otherwise: `teams_csv` names teams.csv."""
    files = FOLDER | {
        "".join(name.rpartition("_")[0]) + "." + name.rpartition("_")[2]: text
        for name, text in changed.items()
    }
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def done(run: Run, *words: object) -> Told:
    """Type a command that is carried out."""
    told = run(*words)
    assert told.status == 0, told.err
    return told


def unbroken(folder: Path) -> SeasonFolder:
    """Read a folder whose timetable keeps every rule that must hold, and has every game."""
    read = read_folder(FolderRecord(folder))
    problem = problem_of(read)
    assert check(problem, problem.announced).broken == ()
    return read


def planned(run: Run, folder: Path, *words: str) -> TimetableProblem:
    """Plan a folder, and return the question with its timetable, which the check passes."""
    done(run, "plan", folder, *QUICK, *BEFORE, *words)
    return problem_of(unbroken(folder))


def faults_of(folder: Path, **changed: str) -> list[Fault]:
    """Return what is wrong with a folder in which some files are changed."""
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(write_folder(folder, **changed)))
    return list(refused.value.faults)


def told(faults: list[Fault]) -> list[tuple[str, str, str]]:
    """Return what faults say, each with its code and its place."""
    return [(one.code, str(one.place), one.says) for one in faults]
