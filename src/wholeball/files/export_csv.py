"""Writes a table as CSV: commas, UTF-8, and an apostrophe before what would run as a formula."""

import csv
import io
from datetime import date
from decimal import Decimal

from wholeball.files.any_cell import neutral
from wholeball.kernel.plain_table import PlainCell, PlainTable
from wholeball.kernel.text import visible


def csv_of(table: PlainTable) -> bytes:
    """Return a table as CSV; numbers are written in full, days as year-month-day."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(map(_cell, table.header))
    writer.writerows(map(_cell, row) for row in table.rows)
    return out.getvalue().encode()


def as_text(text: str) -> str:
    """Return a text with an escape for whatever no file should hold."""
    return visible(text).encode("utf-8", "backslashreplace").decode()


def _cell(cell: PlainCell) -> str:
    match cell:
        case None:
            return ""
        case str():
            return str(neutral(as_text(cell)))
        case Decimal():
            return f"{cell:f}"
        case date():
            return cell.isoformat()
        case int():
            return str(cell)
