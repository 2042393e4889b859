"""Reads timetable.csv: one row a game to be played, with its day, start and field."""

from datetime import date, time
from typing import Final, get_args

from wholeball.files.cells import Column, clock_time, day, one_line, one_of, whole
from wholeball.files.table import Line, Table, read_table
from wholeball.files.timetable_checks import FixtureChecks
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import Fixture, Stage
from wholeball.league.league import League
from wholeball.season.result import Result

FILE: Final = "timetable.csv"
COLUMNS: Final = (
    Column(name="game", read=one_line),
    Column(name="round", read=whole(1, 99)),
    Column(name="date", read=day),
    Column(name="start", read=clock_time),
    Column(name="field", read=one_line),
    Column(name="home", read=one_line),
    Column(name="away", read=one_line),
    Column(name="stage", read=one_of(*get_args(Stage)), needed=False),
)
"""The columns of timetable.csv; docs/reference/season-folder.md says what each means."""


def read_timetable(
    data: bytes, league: League, played: tuple[Result, ...]
) -> tuple[tuple[Fixture, ...], Table]:
    """Return the games in the order of the file, and every fault of it.

    `played` are the results that the folder has; a game keeps its sides in both files.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = cells_of_timetable(data)[1]
    checks = FixtureChecks(FILE, league, played)
    fixtures = []
    for line in table.lines:
        faults = checks.faults(line)
        table.faults.extend(faults)
        if all(fault.level != "fault" for fault in faults):
            fixtures.append(_fixture(line))
    return tuple(fixtures), table


def cells_of_timetable(data: bytes) -> tuple[None, Table]:
    """Look at the cells only, where there is no league to hold them to.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    return None, read_table(data, COLUMNS, file=FILE)


def _fixture(line: Line) -> Fixture:
    return Fixture(
        game=GameId(line.need("game", str)),
        round=line.need("round", int),
        day=line.need("date", date),
        start=line.need("start", time),
        field=line.need("field", str),
        home=TeamId(line.need("home", str)),
        away=TeamId(line.need("away", str)),
        stage=stage_of(line),
    )


def stage_of(line: Line) -> Stage:
    """Return the stage that a row names; a game of the league where it names none."""
    written = line.get("stage", str) or "league"
    return next(stage for stage in get_args(Stage) if stage == written)
