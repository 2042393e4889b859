"""Starts a season whose teams get players in tests."""

from datetime import date
from pathlib import Path

from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.start_season import start_season

MOTHS, GRAVEL, KITES = "Paper Moths", "Loose Gravel", "Tin Kites"


def season_of_three(folder: Path) -> Path:
    """Start a season by the rules of eights: 15 players a team, one team each in a division."""
    start_season(
        FolderRecord(folder),
        preset="eight",
        timezone="Europe/London",
        first_day=date(2026, 9, 1),
    )
    (folder / "divisions.csv").write_text("division\nNorth\nSouth\n")
    teams = f"team,pool,division\n{MOTHS},A,North\n{GRAVEL},A,North\n{KITES},B,South\n"
    (folder / "teams.csv").write_text(teams)
    return folder
