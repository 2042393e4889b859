"""Writes a small season folder with two games to be entered."""

from itertools import count
from pathlib import Path
from typing import Final

from cases.meadow import SEASON
from cases.paper_cards import HOUSE
from wholeball.usecases.seal_entries import Author

MONDAY: Final = 1_795_000_000_000
_TIMETABLE: Final = """game,round,date,start,field,home,away,stage
M1,1,2026-09-15,19:05,Field 1,Ash,Birch,
M2,1,2026-09-15,20:05,Field 1,Cedar,Dogwood,play_off
M3,1,2026-09-16,20:05,Field 1,Ash,Cedar,
"""
_RESULTS: Final = "game,round,home,away,home_goals,away_goals\nM3,1,Ash,Cedar,1,0\n"


def write_season(folder: Path) -> Path:
    """Write the season, and return its folder."""
    folder.mkdir()
    (folder / "season.toml").write_text(SEASON)
    (folder / "rulebook.toml").write_text(HOUSE)
    (folder / "teams.csv").write_text("team\nAsh\nBirch\nCedar\nDogwood\n")
    (folder / "results.csv").write_text(_RESULTS)
    (folder / "timetable.csv").write_text(_TIMETABLE)
    return folder


def author(batch: int = 1, *, name: str = "Kim") -> Author:
    """Return who enters as the batch of that number, an hour after the one before."""
    wall = MONDAY + 3_600_000 * batch
    ids = (f"01900000-0000-7000-{0x8000 + batch:04x}-{number:012x}" for number in count(1))
    return Author(name=name, wall=wall, ids=ids)
