"""Hands a table to other programs, as CSV or as a workbook; the same table is the same bytes."""

from typing import Literal, TypeAlias, assert_never

from wholeball.files.export_csv import csv_of
from wholeball.files.export_xlsx import xlsx_of
from wholeball.kernel.plain_table import PlainTable

Format: TypeAlias = Literal["csv", "xlsx"]


def exported(table: PlainTable, kind: Format) -> bytes:
    """Return a table as a file; no cell of it can run as a formula.

    What nobody can see in a text is written as its escape. What was written is what our own
    readers read, but for spaces around a text.
    """
    match kind:
        case "csv":
            return csv_of(table)
        case "xlsx":
            return xlsx_of(table)
        case _:
            assert_never(kind)
