"""Reads sign_ups.csv: one row a team that asks for a place in a block."""

from collections.abc import Iterator
from datetime import datetime
from typing import Final

from wholeball.files.cells import Column, moment, one_line, text, whole
from wholeball.files.person_codes import BARRED
from wholeball.files.row_faults import Known, Once, Wrong, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import BlockId, TeamId
from wholeball.kernel.refusals import toml_text
from wholeball.league.sign_up import SignUp

FILE: Final = "sign_ups.csv"
COLUMNS: Final = (
    Column(name="team", read=one_line),
    Column(name="block", read=one_line),
    Column(name="at", read=moment),
    Column(name="captain", read=one_line, needed=False),
    Column(name="players", read=whole(0, 99), needed=False),
    Column(name="colours", read=text, needed=False),
    Column(name="second_colours", read=text, needed=False),
)
"""The columns of sign_ups.csv; docs/reference/season-folder.md says what each means."""


def read_sign_ups(data: bytes, blocks: Known | None) -> tuple[tuple[SignUp, ...], Table]:
    """Return the sign-ups in the order of the file, and every fault of it.

    A team that signs up need not be in teams.csv yet.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE, barred=BARRED)
    once, names = Once(), Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from unknown(line, "block", blocks, "block of blocks.csv")
        team = line.need("team", str)
        key = team.casefold()
        twice = [*once.twice(line, "team", (key, line.need("block", str)))]
        yield from twice
        first = names.earlier(line, key)
        if first is not None and not twice:
            says = f"{toml_text(team)} asks for another block on row {first}."
            cure = "Take one out, or give the teams names that differ if they are two."
            yield Wrong("team", "duplicate", says, cure, "doubt")

    return taken(table, wrong, _sign_up), table


def _sign_up(line: Line) -> SignUp:
    return SignUp(
        team=TeamId(line.need("team", str)),
        block=BlockId(line.need("block", str)),
        at=line.need("at", datetime),
        captain=line.get("captain", str) or "",
        players=line.get("players", int) or 0,
        colours=line.get("colours", str) or "",
        second_colours=line.get("second_colours", str) or "",
    )
