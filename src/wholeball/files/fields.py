"""Reads fields.csv: one row a field, by the name that the timetable uses, with its site if any."""

from collections.abc import Iterator
from typing import Final

from wholeball.files.cells import Column, one_line
from wholeball.files.row_faults import Known, Once, Wrong, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import SiteId
from wholeball.league.place import Field

FILE: Final = "fields.csv"
COLUMNS: Final = (
    Column(name="field", read=one_line),
    Column(name="site", read=one_line, needed=False),
)
"""The columns of fields.csv; docs/reference/season-folder.md says what each means."""


def read_fields(data: bytes, sites: Known | None) -> tuple[tuple[Field, ...], Table]:
    """Return the fields in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    once = Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from once.twice(line, "field", line.need("field", str).casefold())
        yield from unknown(line, "site", sites, "site of sites.csv")

    return taken(table, wrong, _field), table


def _field(line: Line) -> Field:
    site = line.get("site", str)
    return Field(field=line.need("field", str), site=None if site is None else SiteId(site))
