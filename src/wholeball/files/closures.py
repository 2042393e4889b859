"""Reads closures.csv: one row a time at which a field or a site cannot be used, and why."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Final

from wholeball.files.cells import Column, clock_time, day, one_line, text
from wholeball.files.row_faults import Known, Wrong, outside_season, taken, wrong_place
from wholeball.files.table import Line, Table, read_table
from wholeball.league.league import League
from wholeball.planning.problem import Slot

FILE: Final = "closures.csv"
COLUMNS: Final = (
    Column(name="field", read=one_line, needed=False),
    Column(name="site", read=one_line, needed=False),
    Column(name="date", read=day),
    Column(name="last_date", read=day, needed=False),
    Column(name="from", read=clock_time, needed=False),
    Column(name="until", read=clock_time, needed=False),
    Column(name="why", read=text, needed=False),
)
"""The columns of closures.csv; docs/reference/season-folder.md says what each means."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closure:
    """When a field, a site or everything is closed; local times, None for the whole night."""

    row: int
    field: str | None
    site: str | None
    first: date
    last: date
    begins: time | None
    ends: time | None
    why: str

    def closes(self, slot: Slot) -> bool:
        """Tell whether a slot cannot be used, or not to its end."""
        is_here = self.field in (None, slot.field) and self.site in (None, slot.site)
        if not is_here or not self.first <= slot.night <= self.last:
            return False
        begins = datetime.combine(slot.night, self.begins or time.min)
        ends = datetime.combine(slot.night, self.ends) if self.ends else None
        starts = datetime.combine(slot.night, slot.at)
        return begins < slot.ends and (ends is None or starts < ends)

    def __str__(self) -> str:
        why = f" ({self.why})" if self.why else ""
        return f"{FILE} row {self.row}{why}"


def read_closures(
    data: bytes, league: League | None, fields: Known | None, sites: Known | None
) -> tuple[tuple[Closure, ...], Table]:
    """Return the closures in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from wrong_place(line, fields, sites)
        if league is not None:
            yield from outside_season(league, line.get("date", date))
        first, last = line.need("date", date), line.get("last_date", date)
        if last is not None and last < first:
            says = f"last_date {last} is before date {first}."
            yield Wrong("last_date", "contradiction", says, "Change one of the two.")
        begins, ends = line.get("from", time), line.get("until", time)
        if begins is not None and ends is not None and ends <= begins:
            says = f"the closure is from {begins:%H:%M} until {ends:%H:%M}."
            yield Wrong("until", "contradiction", says, "It ends later on the same day.")

    return taken(table, wrong, _closure), table


def _closure(line: Line) -> Closure:
    first = line.need("date", date)
    return Closure(
        row=line.row,
        field=line.get("field", str),
        site=line.get("site", str),
        first=first,
        last=line.get("last_date", date) or first,
        begins=line.get("from", time),
        ends=line.get("until", time),
        why=line.get("why", str) or "",
    )
