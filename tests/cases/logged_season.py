"""Writes a season folder of three teams whose games are recorded in logs, or ruled on."""

from pathlib import Path
from typing import Final

import pytest

from cases.logged import Timed, certify, log
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.identity import GameId, TeamId
from wholeball.rulebook.load import load
from wholeball.season.result import CardCounts, Result

_BOOK: Final = """base = "laws-2025-26"
ties = { league = "draw", play_off = "kicks" }
ratings.by = "officials"
resumption.broken_off_by_side = "coordinator"
standings = { criteria = ["points", "difference", "goals"], last_resort = "shared" }
"""
DIGEST: Final = load(_BOOK.encode(), file="rulebook.toml").rulebook.digest
TIMETABLE: Final = """game,round,date,start,field,home,away,stage
g1,1,2026-10-06,19:00,North,Herons,Otters,
g2,1,2026-10-06,20:00,North,Voles,Herons,
g3,2,2026-10-13,19:00,North,Otters,Voles,
p1,3,2026-10-20,19:00,North,Herons,Otters,play_off
"""
FOLDER: Final = {
    "season.toml": """schema = 1
name = "Lantern Hill"
timezone = "Europe/London"
first_day = 2026-09-01
last_day = 2026-12-01
""",
    "rulebook.toml": _BOOK,
    "teams.csv": "team\nHerons\nOtters\nVoles\n",
    "results.csv": "game,round,home,away,home_goals,away_goals\n",
    "timetable.csv": TIMETABLE,
}
RULINGS: Final = "ruling,date,game,ruled,by,home_goals,away_goals,ref,why\n"
AWARDED: Final = RULINGS + "4,2026-10-09,g1,awarded,,0,3,H 3.5,An ineligible player\n"
G1: Final = Result(
    game=GameId("g1"),
    round=1,
    home=TeamId("Herons"),
    away=TeamId("Otters"),
    home_goals=3,
    away_goals=2,
    home_cards=CardCounts(),
    away_cards=CardCounts(),
)
PLAIN: Final = FOLDER["results.csv"] + "g1,1,Herons,Otters,3,2\n"


def written(at: Path, changed: dict[str, str]) -> Path:
    """Write the folder with some files otherwise, and return it."""
    for name, text in (FOLDER | changed).items():
        (at / name).write_text(text, encoding="utf-8")
    return at


def recorded(folder: Path, game: str, happened: list[Timed]) -> None:
    """Write a game's log into the folder, and certify it."""
    certify(folder, game, log(folder, game, happened, book=DIGEST), book=DIGEST)


def faults_of(folder: Path) -> tuple[Fault, ...]:
    """Return the faults of a folder that is refused."""
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(folder))
    return refused.value.faults
