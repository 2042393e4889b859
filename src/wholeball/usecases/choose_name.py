"""Writes down how a person wants the public to read their name."""

from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.folder import read_folder
from wholeball.files.people import COLUMNS, FILE
from wholeball.files.table import MOST_BYTES, Rows, header_of, rows_of, write_table
from wholeball.kernel.identity import PersonId
from wholeball.league.person import Shown
from wholeball.league.record import LeagueRecord

COLUMN: Final = "shown"


def choose_name(record: LeagueRecord, person: PersonId, shown: Shown) -> None:
    """Keep a person's choice in people.csv, and everything else there as it is.

    Raises:
        InputFaults: everything that is wrong with the season, or would be with the choice.
        WholeballError: it cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        codes = [str(one.person) for one in read.people]
        data = record.read(FILE, MOST_BYTES) if record.has(FILE) else b""
        new = _with_choice(data, codes, str(person), shown)
        read_folder(record, instead={FILE: new})
        record.write({FILE: new}, private=frozenset({FILE}))


def _with_choice(data: bytes, codes: list[str], person: str, shown: Shown) -> bytes:
    """Return people.csv with a choice; `codes` say who its rows are, in their order."""
    if not data.strip():
        names = [column.name for column in COLUMNS]
        return write_table(names, [[_cell(name, person, shown) for name in names]])
    rows = rows_of(data, file=FILE)
    header = header_of(rows, COLUMNS)
    width = len(header)
    if COLUMN not in header:
        header = [*header, COLUMN]
    lines = [[*cells, *([""] * (len(header) - width))] for cells in _cells(rows)]
    if person in codes:
        lines[codes.index(person)][header.index(COLUMN)] = shown
    else:
        lines.append([_cell(name, person, shown) for name in header])
    return write_table(header, lines)


def _cells(rows: Rows) -> list[tuple[str, ...]]:
    return [cells for _, cells in rows.rows[1:]]


def _cell(name: str, person: str, shown: Shown) -> str:
    return {"person": neutral(person), COLUMN: shown}.get(name, "")
