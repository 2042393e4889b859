"""Reads a table that a person kept in a spreadsheet, every fault at once, and writes one."""

import csv
import io
import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final, Literal, TypeAlias, TypeVar

from wholeball.files.any_cell import SHOWN, meant, neutral, unfit
from wholeball.files.cells import LONGEST, Cell, Column, Refused
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import toml_text
from wholeball.kernel.toml import decode
from wholeball.rulebook.sentence import counted

MOST_BYTES: Final = 20_000_000
MOST_COLUMNS: Final = 100
_OUT: Final = "Take the column out, and delete copies of the file that have it."
Separator: TypeAlias = Literal[",", ";"]
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """The rows of a file with their numbers, as they stand; empty ones are left out.

    They are tuples of text alone, which Python's collector soon need not look at any more.
    """

    file: str
    rows: list[tuple[int, tuple[str, ...]]]
    separator: Separator = ","


@dataclass(slots=True)
class Table:
    """What one file holds, and what is wrong with it."""

    file: str
    lines: list[Line] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def at(self, row: int, column: str) -> Place:
        """Return the place of a cell; the header is row 1."""
        return Place(file=self.file, row=row, column=column)


def read_table(
    data: bytes,
    columns: Sequence[Column],
    *,
    file: str,
    barred: Mapping[str, str] = MappingProxyType({}),
) -> Table:
    """Return the lines of a CSV file, commas or semicolons, and every fault in them.

    Empty lines are passed over. Lines with a fault are left out of `lines`. `barred` says of
    columns that must not be there why not.

    Raises:
        InputFaults: the file as a whole cannot be read (size, encoding, header, quotes).
    """
    rows = rows_of(data, file=file)
    header = header_of(rows, columns, barred=barred)
    table = Table(file)
    for row, cells in rows.rows[1:]:
        read_line(table, row, header, cells, columns)
    return table


def rows_of(data: bytes, *, file: str) -> Rows:
    """Return the rows of a CSV file, commas or semicolons; none of their cells is judged.

    Raises:
        InputFaults: the file as a whole cannot be read (size, encoding, quotes).
    """
    if len(data) > MOST_BYTES:
        raise _whole(
            "limits", file, f"the file has {len(data):,} bytes.", f"At most {MOST_BYTES:,}."
        )
    text = unicodedata.normalize("NFC", decode(data, file=file))
    separator = separator_of(text)
    return Rows(file=file, rows=_rows(text, separator, file=file), separator=separator)


def header_of(
    rows: Rows, columns: Sequence[Column], *, barred: Mapping[str, str] = MappingProxyType({})
) -> list[str]:
    """Return the names in the first row, in small letters.

    Raises:
        InputFaults: there is no row, or every column that is unknown, barred, twice or missing.
    """
    if not rows.rows:
        cure = f"It starts with {_header(columns)}."
        raise _whole("empty", rows.file, "the file is empty.", cure)
    first, names = rows.rows[0]
    header = [name.strip().lower() for name in names]
    _judge_header(header, columns, Place(file=rows.file, row=first), barred)
    return header


def read_line(
    table: Table, row: int, header: list[str], cells: Sequence[str], columns: Sequence[Column]
) -> None:
    """Read a row into a line of the table, or tell what is wrong with it."""
    if len(cells) != len(header):
        says = f"the row has {counted(len(cells), 'cell')}, the header has {len(header)}."
        cure = "A comma inside a cell needs quotes round the cell."
        place = Place(file=table.file, row=row)
        table.faults.append(Fault(code="row_width", place=place, says=says, cure=cure))
        return
    given = dict(zip(header, cells, strict=True))
    known = [column for column in columns if column.name in given]
    earlier = len(table.faults)
    read = {column.name: _read_cell(table, row, column, given[column.name]) for column in known}
    if all(fault.level != "fault" for fault in table.faults[earlier:]):
        table.lines.append(Line(row, read))


def write_table(header: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """Return a CSV file in UTF-8; words that a spreadsheet would run get an apostrophe.

    `read_table` takes the apostrophe away again, so what was written is what is read.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow(["" if cell is None else neutral(cell) for cell in row])
    return out.getvalue().encode("utf-8")


def separator_of(text: str) -> Separator:
    """Return what parts the cells of a table, as its first line tells."""
    first = text.lstrip().split("\n", 1)[0]
    return ";" if first.count(";") > first.count(",") else ","


def _rows(text: str, separator: Separator, *, file: str) -> list[tuple[int, tuple[str, ...]]]:
    rows: list[tuple[int, tuple[str, ...]]] = []
    lines = io.StringIO(text, newline="")
    reader = csv.reader(lines, delimiter=separator, skipinitialspace=True, strict=True)
    row = 0
    try:
        for row, cells in enumerate(reader, start=1):
            if any(map(str.strip, cells)):
                rows.append((row, tuple(cells)))
    except csv.Error as error:
        raise _broken(str(error), file=file, row=row + 1) from error
    return rows


def _broken(error: str, *, file: str, row: int) -> InputFaults:
    match error.split(" ", 1)[0]:
        case "field":
            says = f"a cell has more than {LONGEST:,} characters."
            return _whole("limits", file, says, "Shorten it, or close its quote.", row=row)
        case "unexpected":
            says = "a quote is opened here and never closed."
            return _whole("syntax", file, says, "Close it, or take it out.", row=row)
        case _:
            says = "a quote is closed in the middle of a cell."
            cure = 'Write a quote inside quotes twice: "".'
            return _whole("syntax", file, says, cure, row=row)


def _judge_header(
    header: list[str], columns: Sequence[Column], place: Place, barred: Mapping[str, str]
) -> None:
    known = [column.name for column in columns]
    if len(header) > MOST_COLUMNS:
        says = f"the header has {len(header):,} columns."
        raise InputFaults([_head(place, "limits", says, f"At most {MOST_COLUMNS}.")])
    faults = []
    for name in sorted({name for name in header if header.count(name) > 1}):
        says = f"column {_shown(name)} appears twice."
        faults.append(_head(place, "duplicate_column", says, "Take one out."))
    for name in header:
        if name in barred:
            faults.append(
                _head(place, "private", f"column {_shown(name)}: {barred[name]}.", _OUT)
            )
        elif name not in known:
            says = f"column {_shown(name)} is not known."
            faults.append(_head(place, "unknown_column", says, did_you_mean(name, known)))
    faults += _missing(header, columns, place)
    if faults:
        raise InputFaults(faults)


def _missing(header: list[str], columns: Sequence[Column], place: Place) -> Iterator[Fault]:
    for column in columns:
        if column.needed and column.name not in header:
            says = f"column {column.name} is missing; found: {_found(header)}."
            cure = f"The first line is {_header(columns)}."
            yield _head(place, "missing_column", says, cure)


def _found(header: list[str]) -> str:
    return ", ".join(map(_shown, header))


def _shown(name: str) -> str:
    return repr(name[:SHOWN])


def _head(place: Place, code: str, says: str, cure: str) -> Fault:
    return Fault(code=code, place=place, says=says, cure=cure)


def _header(columns: Sequence[Column]) -> str:
    return ",".join(column.name for column in columns if column.needed)


def _read_cell(table: Table, row: int, column: Column, cell: str) -> Cell | None:
    wrong = unfit(cell, needed=column.needed)
    if wrong is not None:
        fault = Fault(place=table.at(row, column.name), **wrong._asdict())
        table.faults.append(fault)
        if fault.level == "fault":
            return None
    told = meant(cell)
    return _value(table, row, column, told) if told else None


def _value(table: Table, row: int, column: Column, cell: str) -> Cell | None:
    try:
        return column.read(cell)
    except Refused as refused:
        is_private = refused.code == "private"
        says = f"{column.name} is {toml_text(cell)}."
        fault = Fault(
            code=refused.code,
            place=table.at(row, column.name),
            says=f"{column.name} looks like a student id." if is_private else says,
            value=None if is_private else cell[:SHOWN],
            allowed=refused.allowed,
            cure=refused.cure,
        )
        table.faults.append(fault)
        return None


def _whole(
    code: str, file: str, says: str, cure: str, *, row: int | None = None
) -> InputFaults:
    return InputFaults(
        [Fault(code=code, place=Place(file=file, row=row), says=says, cure=cure)]
    )
