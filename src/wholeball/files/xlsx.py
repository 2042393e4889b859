"""Reads the first sheet of a spreadsheet's workbook as rows of text, within bounds."""

import io
import re
import unicodedata
import warnings
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import Any, Final, Literal, TypeAlias

from wholeball.files.any_cell import neutral
from wholeball.files.archive import DAMAGED, bounded_archive, damaged, refused
from wholeball.files.table import MOST_COLUMNS, Rows
from wholeball.kernel.faults import WholeballError

MOST_ROWS: Final = 200_000
Kind: TypeAlias = Literal["number", "date", "truth", "error"]
"""What a cell holds that is neither text nor a formula."""
_MALFORMED: Final = (
    *DAMAGED,
    ArithmeticError,
    AttributeError,
    LookupError,
    SyntaxError,  # XML that is broken
    TypeError,
)
"""What the reader says of a workbook whose parts do not fit together."""
_ESCAPE: Final = re.compile(r"_x([0-9A-Fa-f]{4})_")
"""How a sheet writes a character that it cannot hold (ECMA-376 part 1, ST_Xstring)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRows:
    """The rows of a sheet as text; `kinds` says by row and column, from 0, what else a cell is.

    Text that looks like a formula has the apostrophe of `neutral`; a formula has none. `others`
    counts the further sheets of the workbook, which were not read.
    """

    rows: Rows
    title: str
    others: int
    kinds: Mapping[tuple[int, int], Kind] = field(default_factory=dict)


def read_sheet(data: bytes, *, file: str) -> SheetRows:
    """Return the rows of the first sheet of a workbook.

    Raises:
        InputFaults: limits, path, zip_bomb, xml_entity; syntax where it is damaged.
        WholeballError: the guard against document types is switched off.
    """
    bounded_archive(data, file=file)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extensions, which are not read
            return _first_sheet(data, file=file)
    except _MALFORMED as error:
        raise damaged(file) from error


def _first_sheet(data: bytes, *, file: str) -> SheetRows:
    import openpyxl  # noqa: PLC0415 - as long to import as all the rest of the program

    if not openpyxl.DEFUSEDXML:
        raise WholeballError(
            "Spreadsheets are not read where the guard against document types is off.",
            fix="Install defusedxml, and take OPENPYXL_DEFUSEDXML out of the environment.",
            code="guard",
        )
    book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, keep_links=False)
    if not book.worksheets:
        raise refused("empty", file, "the workbook has no sheet.", "Save one with a table.")
    sheet = book.worksheets[0]
    kinds: dict[tuple[int, int], Kind] = {}
    rows = []
    for row, cells in _numbered(sheet, file=file):
        texts = [_text(cell, (row, at), kinds) for at, cell in enumerate(cells)]
        if any(map(str.strip, texts)):
            rows.append((row, tuple(texts)))
    others = len(book.worksheets) - 1
    return SheetRows(
        rows=Rows(file=file, rows=_to_width(rows)),
        title=sheet.title,
        others=others,
        kinds=kinds,
    )


def _numbered(sheet: Any, *, file: str) -> Iterator[tuple[int, tuple[Any, ...]]]:
    """Yield the rows with their numbers; what the sheet says of its size is not believed."""
    sheet.reset_dimensions()
    for row, cells in enumerate(sheet.iter_rows(max_row=MOST_ROWS + 1), start=1):
        if row > MOST_ROWS:
            says = f"the sheet goes on below row {MOST_ROWS:,}."
            raise refused("limits", file, says, "Save it as CSV.")
        if len(cells) > MOST_COLUMNS:
            says = f"row {row} has a cell in column {len(cells):,}; at most {MOST_COLUMNS}."
            raise refused("limits", file, says, "Take out what is not of the table.")
        yield row, cells


def _to_width(rows: list[tuple[int, tuple[str, ...]]]) -> list[tuple[int, tuple[str, ...]]]:
    """Return rows as wide as the first: a sheet keeps no cells after the last that is filled."""
    if not rows:
        return rows
    width = _filled(rows[0][1])
    return [
        (row, texts[: max(width, _filled(texts))] + ("",) * (width - len(texts)))
        for row, texts in rows
    ]


def _filled(texts: tuple[str, ...]) -> int:
    """Return how many cells there are up to the last that holds something."""
    return next((at for at in range(len(texts), 0, -1) if texts[at - 1].strip()), 0)


def _text(cell: Any, at: tuple[int, int], kinds: dict[tuple[int, int], Kind]) -> str:
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, str) and cell.data_type == "s":
        told = _ESCAPE.sub(lambda found: chr(int(found[1], 16)), value)
        return str(neutral(unicodedata.normalize("NFC", told)))
    if cell.data_type == "f":
        return value if isinstance(value, str) else "="
    kinds[at], text = _other(value)
    return text


def _other(value: Any) -> tuple[Kind, str]:
    match value:
        case bool():
            return "truth", str(value).upper()
        case int() | float():
            is_whole = float(value).is_integer()
            return "number", str(int(value)) if is_whole else str(value)
        case datetime() if value.time() == time():
            return "date", value.date().isoformat()
        case date() | time() | timedelta():
            return "date", str(value)
        case _:
            return "error", str(value)
