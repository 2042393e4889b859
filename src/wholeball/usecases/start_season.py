"""Starts a season: a new folder with a rulebook from a preset and tables to fill in."""

from datetime import date, timedelta
from pathlib import Path
from typing import Final

from wholeball.files.presets import starting_folder
from wholeball.files.write import write_new_folder

WEEKS: Final = 12


def start_season(folder: Path, *, preset: str, timezone: str, first_day: date) -> None:
    """Write a new season folder of twelve weeks from a preset.

    Raises:
        WholeballError: there is no such preset, or the folder is there already.
    """
    contents = starting_folder(
        folder.name,
        preset_name=preset,
        timezone=timezone,
        first_day=first_day,
        last_day=first_day + timedelta(weeks=WEEKS) - timedelta(days=1),
    )
    write_new_folder(folder, contents)
