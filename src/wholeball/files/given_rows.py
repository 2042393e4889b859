"""Reads the rows of a list that somebody hands in: a CSV file, or a workbook's first sheet."""

from typing import Final, NamedTuple

from wholeball.files.archive import is_archive, refused
from wholeball.files.other_encoding import refuse_other_encoding
from wholeball.files.table import Rows, rows_of
from wholeball.files.xlsx import SheetRows, read_sheet

_OLD_WORKBOOK: Final = b"\xd0\xcf\x11\xe0"


class GivenRows(NamedTuple):
    """The rows of a list; `sheet` is the workbook's that they are of, None for a CSV file."""

    rows: Rows
    sheet: SheetRows | None


def given_rows(data: bytes, *, file: str) -> GivenRows:
    """Return the rows of a list; what a file is, its first bytes say.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    if data.startswith(_OLD_WORKBOOK):
        says = "the file is a workbook of the old kind (.xls), or has a password."
        raise refused("format", file, says, "Save it as .xlsx without a password, or as CSV.")
    if is_archive(data):
        sheet = read_sheet(data, file=file)
        return GivenRows(sheet.rows, sheet)
    refuse_other_encoding(data, file=file)
    return GivenRows(rows_of(data, file=file), None)
