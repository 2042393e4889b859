"""Hands out the rulebooks that a season may start from, and the files of a new folder."""

import json
from datetime import date
from importlib.resources import files
from typing import Final

from wholeball.files.results import COLUMNS as RESULT_COLUMNS
from wholeball.files.slots import COLUMNS as SLOT_COLUMNS
from wholeball.files.table import write_table
from wholeball.files.teams import COLUMNS as TEAM_COLUMNS
from wholeball.files.zones import zones
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.nearest import did_you_mean

PRESETS: Final = ("eleven", "nine", "eight", "seven", "five_indoor", "mixed")


def preset(name: str) -> bytes:
    """Return a preset's rulebook, comments and all.

    Raises:
        WholeballError: there is no such preset.
    """
    if name not in PRESETS:
        raise WholeballError(
            f"There is no preset {name!r}.",
            fix=did_you_mean(name, PRESETS),
            code="unknown_value",
        )
    return files("wholeball.rulebook.presets").joinpath(f"{name}.toml").read_bytes()


def starting_folder(
    folder: str,
    *,
    preset_name: str,
    timezone: str,
    first_day: date,
    last_day: date,
    name: str = "Our league",
) -> dict[str, bytes]:
    """Return the files of a new season folder, with comments that say what to write where.

    Raises:
        WholeballError: there is no such preset or time zone.
    """
    if timezone not in zones():
        raise WholeballError(
            f"There is no time zone {timezone!r}.",
            fix=did_you_mean(timezone, sorted(zones())),
            code="unknown_value",
        )
    starter = files("wholeball.files").joinpath("starter")
    season = starter.joinpath("season.toml").read_text(encoding="utf-8")
    readme = starter.joinpath("README.md").read_text(encoding="utf-8")
    planning = starter.joinpath("planning.toml").read_text(encoding="utf-8")
    told = season.format(
        name=_in_quotes(name), timezone=timezone, first_day=first_day, last_day=last_day
    )
    return {
        "README.md": readme.format(folder=folder).encode(),
        "season.toml": told.encode(),
        "rulebook.toml": preset(preset_name),
        "teams.csv": write_table([column.name for column in TEAM_COLUMNS], []),
        "results.csv": write_table([column.name for column in RESULT_COLUMNS], []),
        "planning.toml": planning.format(folder=folder, last_day=last_day).encode(),
        "slots.csv": write_table([column.name for column in SLOT_COLUMNS], []),
    }


def _in_quotes(text: str) -> str:
    """Return a text as it stands between the quotes of TOML, which escapes as JSON does."""
    return json.dumps(text, ensure_ascii=False)[1:-1].replace("\x7f", "\\u007F")
