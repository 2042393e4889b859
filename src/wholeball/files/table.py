"""Reads a table that a person kept in a spreadsheet, every fault at once, and writes one."""

import csv
import io
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, TypeVar

from wholeball.files.cells import LONGEST, Cell, Column, Refused
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.text import unreadable
from wholeball.kernel.toml import decode

MOST_BYTES: Final = 20_000_000
_FORMULA: Final = ("=", "+", "@", "\t", "\r")
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a table, its cells read; a cell left empty is None."""

    row: int
    cells: Mapping[str, Cell | None]

    def get(self, column: str, kind: type[_T]) -> _T | None:
        """Return the cell of a column as the kind its reader gives, or None if empty."""
        cell = self.cells.get(column)
        if cell is None or isinstance(cell, kind):
            return cell
        raise TypeError(f"column {column} holds {type(cell).__name__}, not {kind.__name__}")

    def need(self, column: str, kind: type[_T]) -> _T:
        """Return the cell of a column that is never empty."""
        cell = self.get(column, kind)
        if cell is None:
            raise TypeError(f"column {column} was read as needed and is empty")
        return cell


@dataclass(slots=True)
class Table:
    """What one file holds, and what is wrong with it."""

    file: str
    lines: list[Line] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def at(self, row: int, column: str) -> Place:
        """Return the place of a cell; the header is row 1."""
        return Place(file=self.file, row=row, column=column)


def read_table(data: bytes, columns: Sequence[Column], *, file: str) -> Table:
    """Return the lines of a CSV file, commas or semicolons, and every fault in them.

    Empty lines are passed over. Lines with a fault are left out of `lines`.

    Raises:
        InputFaults: the file as a whole cannot be read (size, encoding, header, quotes).
    """
    if len(data) > MOST_BYTES:
        raise _whole(
            "limits", file, f"the file has {len(data):,} bytes.", f"At most {MOST_BYTES:,}."
        )
    rows = _rows(decode(data, file=file), file=file)
    if not rows:
        raise _whole("empty", file, "the file is empty.", f"It starts with {_header(columns)}.")
    header = [_plain(name).lower() for name in rows[0]]
    _judge_header(header, columns, file=file)
    table = Table(file)
    for number, cells in enumerate(rows[1:], start=2):
        if any(cell.strip() for cell in cells):
            _read_line(table, number, header, cells, columns)
    return table


def write_table(header: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """Return a CSV file in UTF-8; a cell that a spreadsheet would run gets an apostrophe."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow(["" if cell is None else _neutral(str(cell)) for cell in row])
    return out.getvalue().encode("utf-8")


def _neutral(cell: str) -> str:
    return f"'{cell}" if cell.startswith((*_FORMULA, "-")) else cell


def _rows(text: str, *, file: str) -> list[list[str]]:
    first = text.split("\n", 1)[0]
    delimiter = ";" if first.count(";") > first.count(",") else ","
    rows: list[list[str]] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        for row in reader:
            rows.append(row)  # noqa: PERF402 - on an error we need the rows so far
    except csv.Error as error:
        code = "limits" if "field larger" in str(error) else "syntax"
        cure = "Look for a quote that is not closed, or a cell that is far too long."
        raise _whole(code, file, f"{error}.", cure, row=len(rows) + 1) from error
    return rows


def _judge_header(header: list[str], columns: Sequence[Column], *, file: str) -> None:
    known = [column.name for column in columns]
    faults = [
        _head(file, "duplicate_column", f"column {name} appears twice.", "Take one out.")
        for name in sorted({name for name in header if header.count(name) > 1})
    ]
    faults += [
        _head(
            file, "unknown_column", f"column {name!r} is not known.", did_you_mean(name, known)
        )
        for name in header
        if name not in known
    ]
    faults += [
        _head(
            file,
            "missing_column",
            f"column {column.name} is missing; found: {', '.join(header)}.",
            f"The first line is {_header(columns)}.",
        )
        for column in columns
        if column.needed and column.name not in header
    ]
    if faults:
        raise InputFaults(faults)


def _head(file: str, code: str, says: str, cure: str) -> Fault:
    return Fault(code=code, place=Place(file=file, row=1), says=says, cure=cure)


def _header(columns: Sequence[Column]) -> str:
    return ",".join(column.name for column in columns if column.needed)


def _read_line(
    table: Table, row: int, header: list[str], cells: list[str], columns: Sequence[Column]
) -> None:
    if len(cells) != len(header):
        says = f"the row has {len(cells)} cells, the header has {len(header)}."
        cure = "A comma inside a cell needs quotes round the cell."
        place = Place(file=table.file, row=row)
        table.faults.append(Fault(code="row_width", place=place, says=says, cure=cure))
        return
    given = {name: _plain(cell) for name, cell in zip(header, cells, strict=True)}
    known = [column for column in columns if column.name in given]
    read = {column.name: _read_cell(table, row, column, given[column.name]) for column in known}
    if not any(
        fault.place.row == row and fault.level == "fault"
        for fault in table.faults[-len(known) :]
    ):
        table.lines.append(Line(row, read))


def _read_cell(table: Table, row: int, column: Column, cell: str) -> Cell | None:
    place = table.at(row, column.name)
    unfit = _unfit(place, cell, needed=column.needed)
    if unfit is not None:
        table.faults.append(unfit)
        if unfit.level == "fault":
            return None
    try:
        return column.read(cell) if cell else None
    except Refused as refused:
        fault = Fault(
            code=refused.code,
            place=place,
            says=f"{column.name} is {cell!r}.",
            value=cell,
            allowed=refused.allowed,
            cure=refused.cure,
        )
        table.faults.append(fault)
        return None


def _unfit(place: Place, cell: str, *, needed: bool) -> Fault | None:
    """Return what makes a cell unfit whatever column it stands in, or None."""
    if needed and not cell:
        return Fault(code="missing", place=place, says="the cell is empty.", cure="Fill it in.")
    if len(cell) > LONGEST:
        says = f"the cell has {len(cell):,} characters; at most {LONGEST:,}."
        return Fault(code="limits", place=place, says=says, cure="Shorten it.")
    hidden = unreadable(cell)
    if hidden is not None:
        code, character = hidden
        says = f"the cell holds {character}, which nobody can see."
        return Fault(code=code, place=place, says=says, cure="Delete it and type it again.")
    return _formula(place, cell)


def _formula(place: Place, cell: str) -> Fault | None:
    if cell.startswith(_FORMULA):
        says = f"{cell[:40]!r} starts like a spreadsheet's formula."
        cure = "Start it with a letter or a digit."
        return Fault(code="formula", place=place, says=says, cure=cure)
    if cell.startswith("-"):
        says = f"{cell[:40]!r} starts with a minus; it is kept as words."
        cure = "Nothing to do if it is meant."
        return Fault(code="formula", place=place, says=says, cure=cure, level="doubt")
    return None


def _plain(cell: str) -> str:
    return unicodedata.normalize("NFC", cell).strip()


def _whole(
    code: str, file: str, says: str, cure: str, *, row: int | None = None
) -> InputFaults:
    return InputFaults(
        [Fault(code=code, place=Place(file=file, row=row), says=says, cure=cure)]
    )
