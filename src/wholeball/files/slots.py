"""Reads slots.csv: one row a field on a night or a weekday, cut into slots that games fit into."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import islice, pairwise
from typing import Final, get_args
from zoneinfo import ZoneInfo

from wholeball.files.cells import Column, clock_time, day, one_line, one_of, whole
from wholeball.files.local_times import CURES, SAYS, odd
from wholeball.files.row_faults import Known, Wrong, outside_season, row_fault, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import SiteId
from wholeball.league.division import Weekday
from wholeball.league.league import League
from wholeball.planning import days
from wholeball.planning.problem import Slot

FILE: Final = "slots.csv"
_ENDS: Final = ("until", "lights_off", "permit_until")
COLUMNS: Final = (
    Column(name="field", read=one_line),
    Column(name="weekday", read=one_of(*get_args(Weekday)), needed=False),
    Column(name="date", read=day, needed=False),
    Column(name="first_date", read=day, needed=False),
    Column(name="last_date", read=day, needed=False),
    Column(name="from", read=clock_time),
    *(Column(name=name, read=clock_time, needed=False) for name in _ENDS),
    Column(name="minutes", read=whole(1, 600), needed=False),
)
"""The columns of slots.csv; docs/reference/season-folder.md says what each means."""
MOST: Final = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What the rest of the folder says, and slots are held to; None where it is not known.

    `sites` has the site of each field; `minutes` is what a league game needs with its turnover.
    """

    league: League
    fields: Known | None
    sites: dict[str, SiteId]
    minutes: int | None


def read_slots(data: bytes, ground: Ground | None) -> tuple[tuple[Slot, ...], Table]:
    """Return the slots in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    if ground is None:
        return (), table
    made: dict[int, list[Slot]] = {}
    for line in table.lines:
        wrongs = list(_wrong(line, ground))
        if not any(one.level == "fault" for one in wrongs):
            room = MOST - sum(map(len, made.values()))
            made[line.row] = list(islice(_slots(line, ground), room + 1))
            if len(made[line.row]) > room:
                says = f"there are more than {MOST:,} slots."
                wrongs.append(
                    Wrong("minutes", "limits", says, "Mend the minutes, or the dates.")
                )
                table.faults += [row_fault(FILE, line, one) for one in wrongs]
                break
            wrongs += _odd_times(made[line.row], ZoneInfo(ground.league.timezone))
            wrongs += _none_fits(line, made[line.row], ground)
        table.faults += [row_fault(FILE, line, one) for one in wrongs]
    lines = {line.row: line for line in table.lines}
    table.faults += [
        row_fault(FILE, lines[row], wrong) for row, wrong in _overlaps(made).items()
    ]
    return tuple(slot for slots in made.values() for slot in slots), table


def _wrong(line: Line, ground: Ground) -> Iterator[Wrong]:
    yield from unknown(line, "field", ground.fields, "field of fields.csv")
    yield from _days_wrong(line, ground.league)
    begins = line.need("from", time)
    ends = {name: line.get(name, time) for name in _ENDS}
    if not any(ends.values()):
        cure = "Give until, lights_off or permit_until."
        yield Wrong("until", "missing", "the row does not say until when.", cure)
    for name, end in ends.items():
        if end is not None and end <= begins:
            says = f"{name} is {end:%H:%M}, and the row begins at {begins:%H:%M}."
            cure = "It ends later on the same day; after midnight is another day."
            yield Wrong(name, "contradiction", says, cure)
    minutes = line.get("minutes", int)
    if minutes is not None and ground.minutes is not None and minutes < ground.minutes:
        says = f"a slot has {minutes} minutes; a game with its turnover needs {ground.minutes}."
        cure = "Give it the minutes, or mend the game's length or the turnover."
        yield Wrong("minutes", "too_short", says, cure)


def _days_wrong(line: Line, league: League) -> Iterator[Wrong]:
    weekday, one = line.get("weekday", str), line.get("date", date)
    first, last = line.get("first_date", date), line.get("last_date", date)
    if (weekday is None) == (one is None):
        says = "a weekday and a date are given." if weekday else "the row names no day."
        code = "contradiction" if weekday else "missing"
        yield Wrong("weekday", code, says, "Give a weekday, or one date.")
    if one is not None and (first or last):
        says = "first_date and last_date are for a weekday."
        yield Wrong("first_date", "contradiction", says, "Take them out, or the date.")
    yield from outside_season(league, one)
    for name, value in (("first_date", first), ("last_date", last)):
        for wrong in outside_season(league, value):
            yield wrong._replace(column=name)
    if first is not None and last is not None and last < first:
        says = f"last_date {last} is before first_date {first}."
        yield Wrong("last_date", "contradiction", says, "Change one of the two.")


def _slots(line: Line, ground: Ground) -> Iterator[Slot]:
    """Cut the time from the start to the earliest end into slots; what is left over is not used."""
    field = line.need("field", str)
    minutes = line.get("minutes", int) or ground.minutes
    if minutes is None:
        return
    begins = line.need("from", time)
    closes = min(end for name in _ENDS if (end := line.get(name, time)) is not None)
    for night in _of_season(line, ground.league):
        at = datetime.combine(night, begins)
        while at + timedelta(minutes=minutes) <= datetime.combine(night, closes):
            yield Slot(
                field=field,
                site=ground.sites.get(field, SiteId("")),
                night=night,
                at=at.time(),
                minutes=minutes,
            )
            at += timedelta(minutes=minutes)


def _nights(line: Line, league: League) -> Iterator[date]:
    weekday, one = line.get("weekday", str), line.get("date", date)
    if one is not None:
        yield one
        return
    first = line.get("first_date", date) or league.first_day
    last = line.get("last_date", date) or league.last_day
    for number in range((last - first).days + 1):
        night = first + timedelta(days=number)
        if days.weekday(night) == weekday:
            yield night


def _of_season(line: Line, league: League) -> Iterator[date]:
    """Yield the nights of a row that are days of the season; nobody plays on others."""
    for night in _nights(line, league):
        if league.first_day <= night <= league.last_day:
            yield night


def _none_fits(line: Line, slots: list[Slot], ground: Ground) -> Iterator[Wrong]:
    """Find a row into which no game fits, and doubt an end that lights or a permit cut short."""
    minutes = line.get("minutes", int) or ground.minutes
    ends = {name: end for name in _ENDS if (end := line.get(name, time)) is not None}
    name = min(ends, key=lambda one: ends[one])
    if minutes is not None and not slots:
        if not any(_nights(line, ground.league)):
            says = "there is no such day between the dates."
            yield Wrong("weekday", "range", says, "Mend the weekday, or the dates.")
            return
        if not any(_of_season(line, ground.league)):
            return
        says = (
            f"a game with its turnover needs {minutes} minutes, and {name} is "
            f"{ends[name]:%H:%M}."
        )
        yield Wrong(name, "too_short", says, "Begin earlier, or end later.")
    elif "until" in ends and name != "until":
        says = f"until is {ends['until']:%H:%M}, and {name} {ends[name]:%H:%M}: what is later is not used."
        yield Wrong("until", "contradiction", says, "Mend one of the two.", "doubt")


def _odd_times(slots: list[Slot], zone: ZoneInfo) -> Iterator[Wrong]:
    """Find a slot that begins or ends at a time that happens twice, or not at all."""
    for slot in slots:
        for at in (datetime.combine(slot.night, slot.at), slot.ends):
            wrong = odd(zone, at.date(), at.time())
            if wrong is not None:
                says = f"{at:%H:%M} on {at.date()} {SAYS[wrong]}."
                yield Wrong("from", wrong, says, CURES[wrong])
                return


def _overlaps(made: dict[int, list[Slot]]) -> dict[int, Wrong]:
    """Find the rows with a slot that begins before one of an earlier row has ended."""
    by_night: dict[tuple[str, date], list[tuple[datetime, int, Slot]]] = defaultdict(list)
    for row, slots in made.items():
        for slot in slots:
            begins = datetime.combine(slot.night, slot.at)
            by_night[slot.field.casefold(), slot.night].append((begins, row, slot))
    found: dict[int, Wrong] = {}
    for here in by_night.values():
        here.sort(key=lambda one: one[:2])
        for (_, row, slot), (begins, other, _) in pairwise(here):
            if begins < slot.ends and row != other:
                first, second = min(row, other), max(row, other)
                says = (
                    f"{slot.field} has a slot on {days.day(slot.night)} from {slot.at:%H:%M} to "
                    f"{slot.ends:%H:%M}, and another begins at {begins:%H:%M} (rows {first} and "
                    f"{second})."
                )
                cure = "Let one end before the other begins."
                found.setdefault(second, Wrong("from", "clash", says, cure))
    return found
