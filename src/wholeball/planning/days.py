"""Writes days and times of a season as people say them, the same on every machine."""

from datetime import date, time
from typing import Final

from wholeball.kernel.days import day_of_season
from wholeball.league.division import Weekday

WEEKDAYS: Final[tuple[Weekday, ...]] = (
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
)


def weekday(when: date) -> Weekday:
    """Return the name of a day's weekday, in small letters as files have it."""
    return WEEKDAYS[when.weekday()]


def day(when: date) -> str:
    """Write a day of the season: "Monday 4 January"."""
    return day_of_season(when)


def clock(at: time) -> str:
    """Write a time of the day: "18:05"."""
    return f"{at:%H:%M}"
