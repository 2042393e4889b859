"""Reads a small table of teams, their goals and notes, as a spreadsheet may have written it."""

from typing import Final

from wholeball.files.cells import Column, one_line, text, whole
from wholeball.files.table import Table, read_table
from wholeball.kernel.faults import Place

_COLUMNS: Final = (
    Column(name="team", read=one_line),
    Column(name="goals", read=whole(0, 99), needed=False),
    Column(name="note", read=text, needed=False),
)


def read(data: bytes | str) -> Table:
    """Read the table from the text or the bytes of its file."""
    return read_table(
        data.encode() if isinstance(data, str) else data, _COLUMNS, file="teams.csv"
    )


def teams(table: Table) -> list[str]:
    """Return the teams of the lines that could be read."""
    return [line.need("team", str) for line in table.lines]


def at(row: int, column: str | None = None) -> Place:
    """Return a place in the file of the table."""
    return Place(file="teams.csv", row=row, column=column)
