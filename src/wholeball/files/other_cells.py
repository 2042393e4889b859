"""Changes cells of a table and leaves every other row as it is, byte for byte."""

import csv
import io
import unicodedata
from collections.abc import Callable, Mapping, Sequence
from typing import Final

from wholeball.files.any_cell import meant, neutral
from wholeball.files.cells import Column
from wholeball.files.more_rows import with_rows
from wholeball.files.table import separator_of

_MARK: Final = "\ufeff"


def with_cells(
    data: bytes,
    change: Callable[[Mapping[str, str]], Mapping[str, str]],
    *,
    columns: Sequence[Column] = (),
) -> bytes:
    """Return a table with some cells changed; a row is what its cells say, by their columns.

    `data` is a table that can be read, or nothing. `change` gives the new words of the cells
    that change. One of the `columns` that is filled for the first time comes at the end, in
    every row.
    """
    if not data.strip():
        return data
    told = data.decode("utf-8")
    text = told.removeprefix(_MARK)
    header, rows = _read(text)
    new = [{} if cells is None else change(_said(header, cells)) for _, cells in rows]
    if any(told for one in new for name, told in one.items() if name not in header):
        return with_cells(with_rows(data, [], columns=columns), change, columns=columns)
    separator = separator_of(text)
    parts = [
        part if cells is None else _written(part, header, cells, one, separator)
        for (part, cells), one in zip(rows, new, strict=True)
    ]
    return (told[: len(told) - len(text)] + "".join(parts)).encode()


def with_names(
    data: bytes, column: str, old: str, new: str, *, columns: Sequence[Column]
) -> bytes:
    """Return a table in which a name in a column is another."""
    return with_cells(
        data, lambda row: {column: new} if row.get(column) == old else {}, columns=columns
    )


def _read(text: str) -> tuple[list[str], list[tuple[str, list[str] | None]]]:
    """Return the columns, and each row as it stands with its cells; None for the header."""
    lines = list(io.StringIO(text, newline=""))
    rows = csv.reader(lines, delimiter=separator_of(text), skipinitialspace=True)
    header: list[str] = []
    found: list[tuple[str, list[str] | None]] = []
    done = 0
    for cells in rows:
        part = "".join(lines[done : rows.line_num])
        done = rows.line_num
        is_row = bool(header) and any(map(str.strip, cells))
        if not header and any(map(str.strip, cells)):
            header = [name.strip().lower() for name in cells]
        found.append((part, cells if is_row else None))
    return header, found


def _said(header: Sequence[str], cells: Sequence[str]) -> dict[str, str]:
    read = (unicodedata.normalize("NFC", meant(cell)) for cell in cells)
    return dict(zip(header, read, strict=False))


def _written(
    part: str,
    header: Sequence[str],
    cells: Sequence[str],
    new: Mapping[str, str],
    separator: str,
) -> str:
    """Return a row with its new cells, or as it stands where they say what it says."""
    said = _said(header, cells)
    if all(said.get(name, "") == told for name, told in new.items()):
        return part
    kept = zip(header, cells, strict=False)
    row = [neutral(new[name]) if name in new else cell for name, cell in kept]
    out = io.StringIO()
    end = part[len(part.rstrip("\r\n")) :]
    csv.writer(out, delimiter=separator, lineterminator=end).writerow(row)
    return out.getvalue()
