"""Reads alone.csv: one row a player who signed up for a block without a team."""

from collections.abc import Iterator
from datetime import datetime
from typing import Final

from wholeball.files.cells import Column, moment, one_line
from wholeball.files.person_codes import BARRED, person_code
from wholeball.files.row_faults import Known, Once, Wrong, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import BlockId, PersonId
from wholeball.league.sign_up import Alone

FILE: Final = "alone.csv"
COLUMNS: Final = (
    Column(name="person", read=person_code),
    Column(name="name", read=one_line),
    Column(name="block", read=one_line),
    Column(name="at", read=moment),
)
"""The columns of alone.csv; docs/reference/season-folder.md says what each means."""


def read_alone(data: bytes, blocks: Known | None) -> tuple[tuple[Alone, ...], Table]:
    """Return the players without a team in the order of the file, and every fault of it.

    One person may ask for several blocks.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE, barred=BARRED)
    once = Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from unknown(line, "block", blocks, "block of blocks.csv")
        key = (line.need("person", str), line.need("block", str))
        yield from once.twice(line, "person", key)

    return taken(table, wrong, _alone), table


def _alone(line: Line) -> Alone:
    return Alone(
        person=PersonId(line.need("person", str)),
        name=line.need("name", str),
        block=BlockId(line.need("block", str)),
        at=line.need("at", datetime),
    )
