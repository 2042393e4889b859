"""Says of a game that has not been played yet when it starts."""

from datetime import datetime
from zoneinfo import ZoneInfo

from wholeball.league.fixture import Fixture
from wholeball.reports.dates import day


def starts_only(fixture: Fixture, *, at: datetime, timezone: str) -> str:
    """Return when a game starts, as a sentence; empty once it has, by the clocks of its season."""
    now = at.astimezone(ZoneInfo(timezone))
    start = datetime.combine(fixture.day, fixture.start, tzinfo=now.tzinfo)
    if now >= start:
        return ""
    return f"It starts only on {day(fixture.day)} at {fixture.start:%H:%M}."
