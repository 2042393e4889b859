"""Writes days and times of a season as people say them, the same on every machine."""

from collections.abc import Iterable, Iterator
from datetime import date, time, timedelta
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
_LONG: Final = 3
"""So many days on end are told by the first and the last."""


def weekday(when: date) -> Weekday:
    """Return the name of a day's weekday, in small letters as files have it."""
    return WEEKDAYS[when.weekday()]


def day(when: date) -> str:
    """Write a day of the season: "Monday 4 January"."""
    return day_of_season(when)


def spans(nights: Iterable[date]) -> Iterator[str]:
    """Write days in their order; three or more on end are "Monday 4 January to Friday 8 January"."""
    runs: list[list[date]] = []
    for night in nights:
        if runs and night - runs[-1][-1] == timedelta(days=1):
            runs[-1].append(night)
        else:
            runs.append([night])
    for run in runs:
        if len(run) < _LONG:
            yield from map(day, run)
        else:
            yield f"{day(run[0])} to {day(run[-1])}"


def clock(at: time) -> str:
    """Write a time of the day: "18:05"."""
    return f"{at:%H:%M}"
