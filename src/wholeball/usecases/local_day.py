"""Tells which day it is where a season is played."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from wholeball.files.folder import SeasonFolder


def local_day(read: SeasonFolder, at: datetime) -> date:
    """Return the local day of a moment."""
    return local(read, at).date()


def local(read: SeasonFolder, at: datetime) -> datetime:
    """Return a moment by the clocks of the season."""
    return at.astimezone(ZoneInfo(read.season.league.timezone))
