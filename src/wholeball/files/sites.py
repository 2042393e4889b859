"""Reads sites.csv: one row a place with fields, and what its emergency page says."""

from typing import Final

from wholeball.files.cells import Column, one_line, text
from wholeball.files.row_faults import Once, taken
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import SiteId
from wholeball.league.place import Site

FILE: Final = "sites.csv"
COLUMNS: Final = (
    Column(name="site", read=one_line),
    Column(name="address", read=text, needed=False),
    Column(name="gate", read=text, needed=False),
    Column(name="gate_opener", read=text, needed=False),
    Column(name="aed", read=text, needed=False),
    Column(name="calls", read=text, needed=False),
    Column(name="meets", read=text, needed=False),
    Column(name="shelter", read=text, needed=False),
)
"""The columns of sites.csv; docs/reference/season-folder.md says what each means."""


def read_sites(data: bytes) -> tuple[tuple[Site, ...], Table]:
    """Return the sites in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    once = Once()
    return taken(table, lambda line: once.twice(line, "site", _key(line)), _site), table


def _key(line: Line) -> str:
    return line.need("site", str).casefold()


def _site(line: Line) -> Site:
    return Site(
        site=SiteId(line.need("site", str)),
        address=line.get("address", str) or "",
        gate=line.get("gate", str) or "",
        gate_opener=line.get("gate_opener", str) or "",
        aed=line.get("aed", str) or "",
        calls=line.get("calls", str) or "",
        meets=line.get("meets", str) or "",
        shelter=line.get("shelter", str) or "",
    )
