"""Closes what the last word on a night calls off, and opens it again where the word is another."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date, datetime

from wholeball.files.closures import COLUMNS, FILE
from wholeball.files.closures_write import CALLED_OFF, Lost
from wholeball.files.fewer_rows import without_rows
from wholeball.files.folder import SeasonFolder
from wholeball.files.more_rows import with_rows
from wholeball.files.table import MOST_BYTES
from wholeball.league.record import LeagueRecord
from wholeball.planning.problem import Slot


def with_called_off(
    record: LeagueRecord, read: SeasonFolder, night: date, *, now: datetime
) -> dict[str, bytes]:
    """Return closures.csv by the words on a night, so that no plan uses what is off.

    `read` has those words, and `now` is local: what has begun keeps its place. No file where
    nothing changes.
    """
    data = record.read(FILE, MOST_BYTES) if record.has(FILE) else b""

    def is_old(row: Mapping[str, str]) -> bool:
        return (row.get("why"), row.get("date")) == (CALLED_OFF, f"{night}")

    kept = without_rows(data, is_old)
    rows = [one.cells() for one in _off(read, night, now)]
    closed = with_rows(kept, rows, columns=COLUMNS) if rows else kept
    return {} if closed == data else {FILE: closed}


def _off(read: SeasonFolder, night: date, now: datetime) -> Iterator[Lost]:
    """Yield what is off by the last word on it, a field at a time."""
    by_field: dict[str, list[Slot]] = defaultdict(list)
    for slot in read.planning.slots:
        if slot.night == night and not _is_closed(read, slot):
            by_field[slot.field].append(slot)
    for field, slots in sorted(by_field.items()):
        left = [one for one in slots if datetime.combine(night, one.at) >= now]
        if not left or not _is_off(read, left[0]):
            continue
        begins = min(one.at for one in left) if len(left) < len(slots) else None
        yield Lost(first=night, last=night, field=field, begins=begins, why=CALLED_OFF)


def _is_off(read: SeasonFolder, slot: Slot) -> bool:
    words = [one for one in read.planning.notices if one.night == slot.night]
    last = next((one for one in reversed(words) if one.covers(slot.field, slot.site)), None)
    return last is not None and last.state == "off"


def _is_closed(read: SeasonFolder, slot: Slot) -> bool:
    """Tell whether something else closes a slot."""
    every = read.planning.closures
    return any(one.closes(slot) for one in every if one.why != CALLED_OFF)
