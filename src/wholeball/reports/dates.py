"""Writes days and moments as people say them, the same on every machine."""

from datetime import date, datetime
from typing import Final

_DAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS: Final = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def day(when: date) -> str:
    """Return a day as in "Tuesday 13 October 2026"."""
    return f"{_DAYS[when.weekday()]} {when.day} {_MONTHS[when.month - 1]} {when.year}"


def moment(when: datetime) -> str:
    """Return a day and a local time as in "Tuesday 13 October 2026, 15:05"."""
    return f"{day(when)}, {when.hour:02}:{when.minute:02}"
