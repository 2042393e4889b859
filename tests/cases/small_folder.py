"""Has a season folder of three teams that tests turn as they need it."""

from pathlib import Path
from typing import Final

import pytest

from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import Fault, InputFaults

SEASON: Final = """schema = 1
name = "Lantern Hill"
timezone = "Europe/London"
first_day = 2026-09-01
last_day = 2026-12-01
"""
FOLDER: Final = {
    "season.toml": SEASON,
    "rulebook.toml": 'base = "laws-2025-26"\nstandings.last_resort = "lots"\n',
    "teams.csv": "team,pool\nReds,A\nBlues,A\nZo\u00eb,B\n",
    "results.csv": (
        "game,round,home,away,home_goals,away_goals\n1,1,Reds,Blues,2,1\n2,2,Blues,Reds,0,0\n"
    ),
}
DEDUCTION: Final = (
    '[[deductions]]\nteam = "Reds"\npoints = 1\nround = 1\nwhy = "x"\nref = "H 9"\n'
)


def written(at: Path, changed: dict[str, str | bytes | None]) -> Path:
    """Write the folder with some files changed; one that is None is left out."""
    files = {**FOLDER, **changed}
    for name, data in files.items():
        if data is not None:
            (at / name).write_bytes(data.encode() if isinstance(data, str) else data)
    return at


def faults_of(at: Path, changed: dict[str, str | bytes | None]) -> tuple[Fault, ...]:
    """Return what is wrong with the folder in which some files are changed."""
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(written(at, changed)))
    return refused.value.faults


def season(more: str) -> dict[str, str | bytes | None]:
    """Return what is changed where season.toml says more."""
    return {"season.toml": SEASON + more}
