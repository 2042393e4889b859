"""Writes days and moments as people say them, the same on every machine."""

from datetime import date, datetime

from wholeball.kernel.days import day_of_season


def day(when: date) -> str:
    """Return a day as in "Tuesday 13 October 2026"."""
    return f"{day_of_season(when)} {when.year}"


def moment(when: datetime) -> str:
    """Return a day and a local time as in "Tuesday 13 October 2026, 15:05"."""
    return f"{day(when)}, {when.hour:02}:{when.minute:02}"
