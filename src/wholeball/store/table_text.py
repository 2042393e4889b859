"""Takes a table's text apart into rows, and puts rows together into the text they came from."""

import csv
import io
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from wholeball.kernel.faults import WholeballError
from wholeball.store.models.tables import fields_of

Cells: TypeAlias = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A table: its columns in their order, and its rows by their numbers.

    The first line of a text is row 1, and rows in which every cell is empty are left out. Each
    row has a cell for every column that the table may have, empty where this one lacks it.
    """

    columns: tuple[str, ...]
    head_row: int
    rows: tuple[tuple[int, Cells], ...]


def sheet_of(data: bytes, *, file: str) -> Sheet:
    """Return the rows of a text, with commas or semicolons between their cells.

    Spaces around a cell are no part of it. Text is kept in Unicode's form C.

    Raises:
        WholeballError: it is no such table, or has a column or a cell that cannot be kept.
    """
    lines = _lines(data, file=file)
    head = next(lines, None)
    if head is None:
        raise _refused(file, "it is empty.", "Its first line names the columns.", "empty")
    head_row, names = head
    columns = tuple(name.lower() for name in names)
    order = _order(columns, file=file)
    width = len(fields_of(file))
    rows = []
    for number, cells in lines:
        if len(cells) != len(columns):
            says = f"row {number} has {len(cells)} cells, the first line {len(columns)}."
            raise _refused(file, says, "Give each row a cell for each column.", "row_width")
        if order == list(range(width)):
            rows.append((number, cells))
        else:
            given = dict(zip(order, cells, strict=True))
            rows.append((number, tuple(given.get(at, "") for at in range(width))))
    return Sheet(columns=columns, head_row=head_row, rows=tuple(rows))


def text_of(sheet: Sheet, *, file: str) -> bytes:
    """Return a table as a text: commas, UTF-8, empty lines where rows were left out."""
    known = list(fields_of(file))
    order = [known.index(name) for name in sheet.columns]
    is_whole = order == list(range(len(known)))
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    out.write("\n" * (sheet.head_row - 1))
    writer.writerow(sheet.columns)
    last = sheet.head_row
    for number, cells in sheet.rows:
        out.write("\n" * (number - last - 1))
        writer.writerow(cells if is_whole else [cells[at] for at in order])
        last = number
    return out.getvalue().encode()


def _lines(data: bytes, *, file: str) -> Iterator[tuple[int, Cells]]:
    try:
        text = unicodedata.normalize("NFC", data.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        raise _refused(
            file, "it is no UTF-8.", "Save it as CSV in UTF-8.", "encoding"
        ) from error
    if "\0" in text:
        raise _refused(file, "it holds a NUL.", "Save it as CSV in UTF-8.", "control_char")
    first = text.lstrip().split("\n", 1)[0]
    separator = ";" if first.count(";") > first.count(",") else ","
    lines = io.StringIO(text, newline="")
    reader = csv.reader(lines, delimiter=separator, skipinitialspace=True, strict=True)
    try:
        for number, cells in enumerate(reader, start=1):
            told = tuple(map(str.strip, cells))
            if any(told):
                yield number, told
    except csv.Error as error:
        raise _refused(
            file, f"{error}.", "Close every quote, and no other.", "syntax"
        ) from error


def _order(columns: Sequence[str], *, file: str) -> list[int]:
    """Return at which place of all columns each of these stands."""
    known = list(fields_of(file))
    for name in columns:
        if name not in known:
            cure = f"Take it out; all columns are: {', '.join(known)}."
            raise _refused(file, f"column {name[:80]!r} is not known.", cure, "unknown_column")
    if len(set(columns)) < len(columns):
        raise _refused(file, "a column appears twice.", "Take one out.", "duplicate_column")
    return [known.index(name) for name in columns]


def _refused(file: str, says: str, cure: str, code: str) -> WholeballError:
    return WholeballError(f"{file} cannot be kept: {says}", fix=cure, code=code)
