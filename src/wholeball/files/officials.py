"""Reads officials.csv: one row a student official, by the name that sheets show."""

from collections.abc import Iterator
from typing import Final

from wholeball.files.cells import Column, one_line
from wholeball.files.person_codes import BARRED, person_code
from wholeball.files.row_faults import Once, Wrong, taken
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import PersonId
from wholeball.league.crew import Official

FILE: Final = "officials.csv"
COLUMNS: Final = (
    Column(name="official", read=one_line),
    Column(name="person", read=person_code, needed=False),
)
"""The columns of officials.csv; docs/reference/season-folder.md says what each means."""


def read_officials(data: bytes) -> tuple[tuple[Official, ...], Table]:
    """Return the officials in the order of the file, and every fault of it.

    An official need be on no roster: `person` is for those who play as well.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE, barred=BARRED)
    names, persons = Once(), Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from names.twice(line, "official", line.need("official", str).casefold())
        person = line.get("person", str)
        if person is not None:
            yield from persons.twice(line, "person", person)

    return taken(table, wrong, _official), table


def _official(line: Line) -> Official:
    person = line.get("person", str)
    return Official(
        official=line.need("official", str),
        person=None if person is None else PersonId(person),
    )
