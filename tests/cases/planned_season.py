"""Writes season folders that are to be planned, for tests that change them as they need."""

from pathlib import Path
from typing import Final

SEASON: Final = """schema = 1
name = "Harbour winter eights"
timezone = "America/New_York"
first_day = 2027-01-04
last_day = 2027-02-14
"""
RULEBOOK: Final = """base = "laws-2025-26"
name = "House rules"
game = { periods = 2, minutes = 20, interval_minutes = 5 }
overtime = { ends = "full_time", periods = 2, minutes = 3, interval_minutes = 1 }
ties = { league = "draw", play_off = "overtime_then_kicks" }
"""
TEAMS: Final = "team,pool\nAsh,A\nBirch,A\nCedar,A\nDogwood,A\n"
RESULTS: Final = "game,round,date,home,away,home_goals,away_goals\n"
PLANNING: Final = """schema = 1
turnover_minutes = 10

[[rules]]
rule = "one game a night"
kind = "games_a_night"
strength = "must"
most = 1

[[rules]]
rule = "late"
kind = "even_starts"
strength = "wish"
cost = 5
which = "late"
"""
SLOTS: Final = """field,weekday,date,first_date,last_date,from,until,lights_off,permit_until,minutes
Meadow 1,monday,,,,18:00,21:00,,,
Meadow 2,monday,,2027-01-11,2027-01-25,18:00,,20:30,21:00,60
"""
SITES: Final = "site\nMeadow\n"
FIELDS: Final = "field,site\nMeadow 1,Meadow\nMeadow 2,Meadow\n"
FOLDER: Final = {
    "season.toml": SEASON,
    "rulebook.toml": RULEBOOK,
    "teams.csv": TEAMS,
    "results.csv": RESULTS,
    "planning.toml": PLANNING,
    "slots.csv": SLOTS,
    "sites.csv": SITES,
    "fields.csv": FIELDS,
}


def write_folder(folder: Path, **changed: str) -> Path:
    """Write the folder with some files otherwise: `teams_csv` names teams.csv."""
    files = FOLDER | {
        "".join(name.rpartition("_")[0]) + "." + name.rpartition("_")[2]: text
        for name, text in changed.items()
    }
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder
