"""Keeps days of a season free of games, such as holidays, and opens them again."""

from dataclasses import dataclass
from datetime import date, time
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.closures import COLUMNS, FILE
from wholeball.files.fewer_rows import without_row
from wholeball.files.folder import read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.table import MOST_BYTES, Line, read_table
from wholeball.kernel.faults import WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.planning.days import day

_NAMES: Final = [one.name for one in COLUMNS]


@dataclass(frozen=True, slots=True, kw_only=True)
class DayOff:
    """Days on which something is closed; `row` is where it stands in closures.csv."""

    row: int
    says: str
    why: str


def days_off(record: LeagueRecord) -> tuple[DayOff, ...]:
    """Return what is closed and when."""
    return tuple(
        DayOff(row=one.row, says=_says(one), why=one.get("why", str) or "")
        for one in _lines(record)
    )


def add_days_off(record: LeagueRecord, *, first: date, last: date | None, why: str) -> None:
    """Keep every field free from a day to another.

    Raises:
        InputFaults: the season would have a fault; nothing was written.
        WholeballError: the first is no day of the season, or it cannot be kept.
    """
    cells = {
        "date": f"{first}",
        "last_date": "" if last is None else f"{last}",
        "why": neutral(why),
    }
    row = tuple(cells.get(name, "") for name in _NAMES)
    with record.held():
        league = read_folder(record).season.league
        if not league.first_day <= first <= league.last_day:
            raise WholeballError(
                f"{first} is no day of the season.",
                fix=f"Choose one from {league.first_day} to {league.last_day}.",
                code="outside_season",
            )
        text = with_rows(_held(record), [row], columns=COLUMNS)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def drop_day_off(record: LeagueRecord, row: int) -> None:
    """Open what was closed again.

    Raises:
        WholeballError: there is none on that row any more.
    """
    with record.held():
        text = without_row(_held(record), row, what="This day off")
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def _held(record: LeagueRecord) -> bytes:
    return record.read(FILE, MOST_BYTES) if record.has(FILE) else b""


def _lines(record: LeagueRecord) -> list[Line]:
    data = _held(record)
    return read_table(data, COLUMNS, file=FILE).lines if data.strip() else []


def _says(line: Line) -> str:
    """Say when, and what is closed: everything, unless a field or a site is named."""
    first, last = line.need("date", date), line.get("last_date", date)
    when = day(first)
    if last is not None and last != first:
        when += f" to {day(last)}"
    hours = "".join(
        f" {word} {at:%H:%M}"
        for word, name in (("from", "from"), ("until", "until"))
        if (at := line.get(name, time)) is not None
    )
    where = line.get("field", str) or line.get("site", str) or "every field"
    return f"{when}{hours}: {where}"
