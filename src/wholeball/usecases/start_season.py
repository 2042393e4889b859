"""Starts a season: a new folder with a rulebook from a preset and tables to fill in."""

from datetime import date, timedelta
from pathlib import PurePath
from typing import Final

from wholeball.files.new_record import write_new
from wholeball.files.presets import starting_folder
from wholeball.kernel.faults import WholeballError
from wholeball.league.record import LeagueRecord

WEEKS: Final = 12
LENGTH: Final = timedelta(weeks=WEEKS) - timedelta(days=1)
"""From the first day to the last."""


def start_season(
    record: LeagueRecord,
    *,
    preset: str,
    timezone: str,
    first_day: date,
    name: str = "Our league",
) -> None:
    """Write a new season folder of twelve weeks from a preset.

    Raises:
        WholeballError: there is no such preset or time zone, the calendar ends before the
            season does, or the folder is there already.
    """
    if first_day > date.max - LENGTH:
        raise WholeballError(
            f"A season of {WEEKS} weeks from {first_day} ends after {date.max}.",
            fix="Give an earlier first day.",
            code="range",
        )
    contents = starting_folder(
        PurePath(record.place).name,
        preset_name=preset,
        timezone=timezone,
        first_day=first_day,
        last_day=first_day + LENGTH,
        name=name,
    )
    write_new(record, contents)
