"""Adds rows to closures.csv, so that what was lost once is not planned for again."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, time
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.closures import COLUMNS, FILE
from wholeball.files.more_rows import with_rows
from wholeball.files.table import MOST_BYTES
from wholeball.league.record import LeagueRecord
from wholeball.planning.days import clock, day

WHY: Final = "lost"
CALLED_OFF: Final = "called off"
"""Why a place is closed that a word on the night called off; another word opens it again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost:
    """A field, a site or every field that is closed on a night, or from a night on to another.

    `begins` is None where the whole night is lost; then games before it were played.
    """

    first: date
    last: date
    field: str | None = None
    site: str | None = None
    begins: time | None = None
    why: str = WHY

    def __str__(self) -> str:
        """Say it in words: "Meadow 2, Monday 11 January, from 20:00 on"."""
        where = self.field or self.site or "every field"
        until = f" to {day(self.last)}" if self.last != self.first else ""
        begins = "" if self.begins is None else f", from {clock(self.begins)} on"
        return f"{where}, {day(self.first)}{until}{begins}"

    def cells(self) -> tuple[str, ...]:
        """Return its row, in the order of the columns of closures.csv."""
        return (
            neutral(self.field or ""),
            neutral(self.site or ""),
            f"{self.first}",
            f"{self.last}" if self.last != self.first else "",
            "" if self.begins is None else clock(self.begins),
            "",
            self.why,
        )


def with_closures(record: LeagueRecord, lost: Sequence[Lost]) -> dict[str, bytes]:
    """Return closures.csv with a row for each thing lost; no file where nothing was."""
    if not lost:
        return {}
    data = record.read(FILE, MOST_BYTES) if record.has(FILE) else b""
    return {FILE: with_rows(data, (one.cells() for one in lost), columns=COLUMNS)}
