"""Names the time zones that there are, and the countries they are of."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from zoneinfo import available_timezones


@cache
def zones() -> frozenset[str]:
    """Return the names of the IANA time zone database; its folders are gone through once."""
    return frozenset(available_timezones())


@cache
def countries() -> Mapping[str, str]:
    """Return the ISO 3166 code of the country of each zone that the database gives to one.

    Source: zone.tab of the IANA time zone database; older names of a zone are not in it.
    """
    table = files("tzdata.zoneinfo").joinpath("zone.tab").read_text(encoding="utf-8")
    rows = (line.split("\t") for line in table.splitlines() if not line.startswith("#"))
    return {zone: country for country, _, zone, *_ in rows}
