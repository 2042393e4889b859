"""Writes what a season has whose teams play off: in one bracket, or apart by divisions."""

from pathlib import Path
from typing import Final

from cases.planned_season import RULEBOOK, write_folder
from wholeball.files.folder_record import FolderRecord

ARTICLE: Final = """
[play_offs]
qualify = "{qualify}"
places = {places}
unequal_pools = "per_game"
seeded_by = "pool_place_then_record"
same_pool = "not_asked"
third_place = {third}
"""
SIX: Final = "team,pool\nAsh,A\nBirch,A\nCedar,A\nDogwood,A\nElm,A\nFir,A\n"
APART: Final = (
    "team,pool,division\nAsh,A,Open\nBirch,A,Open\nCedar,A,Open\n"
    "Dogwood,B,Mixed\nElm,B,Mixed\nFir,B,Mixed\n"
)
LEVELS: Final = "division\nOpen\nMixed\n"
PLAN: Final = """schema = 1

[[play_offs]]
game = "P1"
round = 4
home = "seed 1 of one"
away = "seed 2 of one"

[[play_offs]]
game = "Best"
round = 5
home = "winner of P1"
away = "seed 1 of two"
"""
"""Games of a plan where the divisions are called one and two."""


def rulebook(qualify: str, *, places: int = 0, third: str = "false") -> str:
    """Return a rulebook that lets so many go on."""
    return RULEBOOK + ARTICLE.format(qualify=qualify, places=places, third=third)


def six_teams(folder: Path, **changed: str) -> FolderRecord:
    """Write a season of one pool of six teams, all of which go on."""
    files = {"teams_csv": SIX, "rulebook_toml": rulebook("all"), **changed}
    return FolderRecord(write_folder(folder, **files))
