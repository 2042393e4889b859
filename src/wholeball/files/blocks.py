"""Reads blocks.csv: one row a block, with the weekday, the window and the places it has."""

from collections.abc import Iterator
from datetime import time
from typing import Final, get_args

from wholeball.files.cells import Column, clock_time, one_line, one_of, whole
from wholeball.files.row_faults import Known, Once, Wrong, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import BlockId, DivisionId
from wholeball.league.division import Block, Weekday

FILE: Final = "blocks.csv"
COLUMNS: Final = (
    Column(name="block", read=one_line),
    Column(name="division", read=one_line),
    Column(name="weekday", read=one_of(*get_args(Weekday))),
    Column(name="from", read=clock_time),
    Column(name="until", read=clock_time),
    Column(name="places", read=whole(1, 99)),
)
"""The columns of blocks.csv; docs/reference/season-folder.md says what each means."""


def read_blocks(data: bytes, divisions: Known | None) -> tuple[tuple[Block, ...], Table]:
    """Return the blocks in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    once = Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from once.twice(line, "block", line.need("block", str).casefold())
        yield from unknown(line, "division", divisions, "division of divisions.csv")
        opens, closes = line.need("from", time), line.need("until", time)
        if closes <= opens:
            says = f"the block is from {opens:%H:%M} until {closes:%H:%M}."
            yield Wrong("until", "contradiction", says, "A block ends later on the same day.")

    return taken(table, wrong, _block), table


def _block(line: Line) -> Block:
    weekday = line.need("weekday", str)
    return Block(
        block=BlockId(line.need("block", str)),
        division=DivisionId(line.need("division", str)),
        weekday=next(one for one in get_args(Weekday) if one == weekday),
        opens=line.need("from", time),
        closes=line.need("until", time),
        places=line.need("places", int),
    )
