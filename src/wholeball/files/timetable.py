"""Reads timetable.csv: one row a game to be played, with its day, start and field."""

from collections.abc import Collection
from dataclasses import dataclass, field
from datetime import date, time
from typing import Final, get_args

from wholeball.files.bracket import Brackets
from wholeball.files.cells import Column, clock_time, day, one_line, one_of, whole
from wholeball.files.feeding import Feeding, feeding_faults
from wholeball.files.open_sides import open_side
from wholeball.files.row_faults import Known
from wholeball.files.table import Line, Table, read_table
from wholeball.files.timetable_checks import FixtureChecks
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import Fixture, OpenFixture, OpenSide, Stage
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


@dataclass(slots=True, kw_only=True)
class Timetable:
    """The games in the order of the file; those of which a side is still to be known apart.

    `rows` says where each game stands.
    """

    known: tuple[Fixture, ...] = ()
    open: tuple[OpenFixture, ...] = ()
    rows: dict[GameId, int] = field(default_factory=dict)

    @property
    def starts(self) -> dict[str, tuple[date, time]]:
        """The day and the start of each game."""
        starts: dict[str, tuple[date, time]] = {}
        starts.update((one.game, (one.day, one.start)) for one in self.known)
        starts.update((one.game, (one.day, one.start)) for one in self.open)
        return starts


def read_timetable(
    data: bytes,
    league: League,
    played: tuple[Result, ...],
    *,
    bracket_games: Collection[str] = (),
    brackets: Brackets | None = None,
    fields: Known | None = None,
) -> tuple[Timetable, Table]:
    """Return the games in the order of the file, and every fault of it.

    `played` are the results that the folder has; a game keeps its sides in both files. Those of
    the bracket are named in `bracket_games`. `brackets` are the draws that were made, and
    `fields` the names of fields; None where there are none or they cannot be read.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = cells_of_timetable(data)[1]
    checks = FixtureChecks(FILE, league, played, bracket_games=bracket_games, fields=fields)
    feeding = Feeding(
        lines=tuple(table.lines),
        is_whole=not any(fault.level == "fault" for fault in table.faults),
        listed=bracket_games,
        brackets=brackets,
    )
    wrong = [fault for line in table.lines for fault in checks.faults(line)]
    wrong += feeding_faults(FILE, feeding)
    table.faults.extend(wrong)
    rows = {fault.place.row for fault in wrong if fault.level == "fault"}
    return _timetable([line for line in table.lines if line.row not in rows]), table


def _timetable(lines: list[Line]) -> Timetable:
    made = [(line.row, _listed(line)) for line in lines]
    return Timetable(
        known=tuple(one for _, one in made if isinstance(one, Fixture)),
        open=tuple(one for _, one in made if isinstance(one, OpenFixture)),
        rows={one.game: row for row, one in made},
    )


def cells_of_timetable(data: bytes) -> tuple[None, Table]:
    """Look at the cells only, where there is no league to hold them to.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    return None, read_table(data, COLUMNS, file=FILE)


def _listed(line: Line) -> Fixture | OpenFixture:
    home, away = (_side(line.need(column, str)) for column in ("home", "away"))
    game, round_ = GameId(line.need("game", str)), line.need("round", int)
    day, start = line.need("date", date), line.need("start", time)
    where = line.need("field", str)
    if isinstance(home, str) and isinstance(away, str):
        return Fixture(
            game=game,
            round=round_,
            day=day,
            start=start,
            field=where,
            home=home,
            away=away,
            stage=stage_of(line),
        )
    return OpenFixture(
        game=game, round=round_, day=day, start=start, field=where, home=home, away=away
    )


def _side(cell: str) -> TeamId | OpenSide:
    return open_side(cell) or TeamId(cell)


def stage_of(line: Line) -> Stage:
    """Return the stage that a row names; a game of the league where it names none."""
    written = line.get("stage", str) or "league"
    return next(stage for stage in get_args(Stage) if stage == written)
