"""Reads divisions.csv: one row a division, with its league, its level and its kind."""

from typing import Final, get_args

from wholeball.files.cells import Column, one_line, one_of
from wholeball.files.row_faults import Once, taken
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import DivisionId
from wholeball.league.division import Division, Kind

FILE: Final = "divisions.csv"
COLUMNS: Final = (
    Column(name="division", read=one_line),
    Column(name="league", read=one_line, needed=False),
    Column(name="level", read=one_line, needed=False),
    Column(name="kind", read=one_of(*get_args(Kind)), needed=False),
)
"""The columns of divisions.csv; docs/reference/season-folder.md says what each means."""


def read_divisions(data: bytes, season: str) -> tuple[tuple[Division, ...], Table]:
    """Return the divisions in the order of the file, and every fault of it.

    One that names no league is of the season's.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    once = Once()

    def division(line: Line) -> Division:
        kind = line.get("kind", str) or "open"
        return Division(
            division=DivisionId(line.need("division", str)),
            league=line.get("league", str) or season,
            level=line.get("level", str) or "",
            kind=next(one for one in get_args(Kind) if one == kind),
        )

    return taken(table, lambda line: once.twice(line, "division", _key(line)), division), table


def _key(line: Line) -> str:
    return line.need("division", str).casefold()
