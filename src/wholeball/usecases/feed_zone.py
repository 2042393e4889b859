"""Describes a time zone for a calendar file: each change of its clocks, to the second."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

_DAY: Final = timedelta(days=1)
_SECOND: Final = timedelta(seconds=1)


def zone(name: str, first: date, last: date) -> Timezone:
    """Return a zone as its clocks go between two days.

    Each part begins at a local time of the clock that it ends, as RFC 5545 section 3.6.5 has
    it: where clocks go from 2:00 to 3:00 it begins at 2:00.
    """
    rules = ZoneInfo(name)
    begins = datetime.combine(first, time.min, UTC)
    described = Timezone()
    described.add("tzid", name)
    described.add_component(_part(rules, begins, before=begins))
    for moment in _changes(rules, begins, datetime.combine(last, time.min, UTC)):
        described.add_component(_part(rules, moment, before=moment - _SECOND))
    return described


def _changes(rules: ZoneInfo, begins: datetime, ends: datetime) -> Iterator[datetime]:
    """Yield the instants from which another offset or name holds."""
    at = begins
    while at < ends:
        if _clock(rules, at) != _clock(rules, at + _DAY):
            yield _between(rules, at, at + _DAY)
        at += _DAY


def _between(rules: ZoneInfo, early: datetime, late: datetime) -> datetime:
    """Return the first second of the new clock, between one that has the old and one of it."""
    old = _clock(rules, early)
    while late - early > _SECOND:
        middle = early + timedelta(seconds=(late - early) // _SECOND // 2)
        early, late = (middle, late) if _clock(rules, middle) == old else (early, middle)
    return late


def _clock(rules: ZoneInfo, at: datetime) -> tuple[timedelta | None, str | None]:
    local = at.astimezone(rules)
    return local.utcoffset(), local.tzname()


def _part(
    rules: ZoneInfo, at: datetime, *, before: datetime
) -> TimezoneStandard | TimezoneDaylight:
    local, old = at.astimezone(rules), before.astimezone(rules)
    part = TimezoneDaylight() if local.dst() else TimezoneStandard()
    offset = old.utcoffset() or timedelta()
    part.add("dtstart", (at + offset).replace(tzinfo=None))
    part.add("tzoffsetfrom", offset)
    part.add("tzoffsetto", local.utcoffset() or timedelta())
    part.add("tzname", local.tzname() or "")
    return part
