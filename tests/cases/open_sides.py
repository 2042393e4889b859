"""Writes season folders with play-off games whose sides are still to be known, and reads them."""

from pathlib import Path
from typing import Final

import pytest

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import InputFaults

BOOK: Final = 'base = "laws-2025-26"\n'
HEAD: Final = "game,round,date,start,field,home,away,stage\n"
RESULTS: Final = (
    "game,round,home,away,home_goals,away_goals,how,by,stage,home_kicks,away_kicks\n"
)
RULED: Final = "ruling,game,ruled,by,home_goals,away_goals,ref,why\n"
SEMIS: Final = (
    "P1,8,2026-11-10,19:00,1,seed 1,seed 4,play_off\n"
    "P2,8,2026-11-10,19:00,2,Seed 2,seed 3,play_off\n"
)
LAST: Final = (
    "P3,9,2026-11-17,19:00,1,winner of P1,Winner Of P2,play_off\n"
    "P4,9,2026-11-17,19:00,2,loser of P1,loser of P2,play_off\n"
)
"""The final and the game for third."""
_FILES: Final = {
    "season.toml": 'schema = 1\nname = "Lantern Hill"\ntimezone = "Europe/London"\n'
    "first_day = 2026-09-01\nlast_day = 2026-12-01\n",
    "rulebook.toml": BOOK,
    "teams.csv": "team,pool\nReds,A\nPinks,A\nBlues,B\nGreens,B\n",
    "results.csv": RESULTS,
    "timetable.csv": HEAD + SEMIS + LAST,
    "bracket.csv": "seed,team\n1,Reds\n2,Blues\n3,Pinks\n4,Greens\n",
}


def written(at: Path, changed: dict[str, str | None]) -> Path:
    """Write the folder with some files otherwise, or not at all where they are None."""
    for name, text in {**_FILES, **changed}.items():
        if text is not None:
            (at / name).write_text(text, encoding="utf-8")
    return at


def read(at: Path, changed: dict[str, str | None]) -> SeasonFolder:
    """Write the folder with some files otherwise, and read it."""
    return read_folder(FolderRecord(written(at, changed)))


def faults(at: Path, changed: dict[str, str | None]) -> list[tuple[str, str, str, str]]:
    """Return the place, the code, the words and the cure of each fault of such a folder."""
    with pytest.raises(InputFaults) as refused:
        read(at, changed)
    return [(str(one.place), one.code, one.says, one.cure) for one in refused.value.faults]


def sides(read: SeasonFolder) -> dict[str, str]:
    """Return who plays whom in each game whose sides are known."""
    return {str(one.game): f"{one.home} v {one.away}" for one in read.timetable}
