"""Reads not_cleared.csv: one row a block at the gate, from one day to another, without a reason."""

from collections.abc import Iterator
from datetime import date
from typing import Final

from wholeball.files.cells import Column, day
from wholeball.files.known_persons import KnownPersons, person_in, wrong_person
from wholeball.files.person_codes import BARRED, person_code
from wholeball.files.row_faults import Once, Wrong, taken
from wholeball.files.table import Line, Table, read_table
from wholeball.league.person import NotCleared

FILE: Final = "not_cleared.csv"
COLUMNS: Final = (
    Column(name="person", read=person_code),
    Column(name="since", read=day),
    Column(name="until", read=day, needed=False),
)
"""The columns of not_cleared.csv; docs/reference/season-folder.md says what each means."""

_REASONS: Final = dict.fromkeys(
    ("reason", "reasons", "why", "note", "notes", "comment", "comments", "what"),
    "reasons are kept elsewhere; the gate sees the block alone",
)


def read_not_cleared(
    data: bytes, persons: KnownPersons | None
) -> tuple[tuple[NotCleared, ...], Table]:
    """Return the blocks at the gate in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE, barred={**BARRED, **_REASONS})
    once = Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        since, until = line.need("since", date), line.get("until", date)
        yield from once.twice(line, "person", (person_in(line, persons), since))
        yield from wrong_person(line, persons)
        if until is not None and until < since:
            says = f"the block ends on {until}, before it starts on {since}."
            yield Wrong("until", "contradiction", says, "Mend one of the two days.")

    return taken(table, wrong, lambda line: _not_cleared(line, persons)), table


def _not_cleared(line: Line, persons: KnownPersons | None) -> NotCleared:
    return NotCleared(
        person=person_in(line, persons),
        since=line.need("since", date),
        until=line.get("until", date),
    )
