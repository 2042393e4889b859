"""Names the time zones that there are."""

from functools import cache
from zoneinfo import available_timezones


@cache
def zones() -> frozenset[str]:
    """Return the names of the IANA time zone database; its folders are gone through once."""
    return frozenset(available_timezones())
