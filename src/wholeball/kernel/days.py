"""Names days as people say them, the same on every machine."""

from datetime import date
from typing import Final

_WEEKDAYS: Final = (
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
)
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


def day_of_season(when: date) -> str:
    """Return a day without its year as in "Monday 4 January"."""
    return f"{_WEEKDAYS[when.weekday()]} {when.day} {_MONTHS[when.month - 1]}"
