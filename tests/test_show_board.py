"""The board shows who plays a game where that is known, and what brings them where it is not."""

from datetime import date
from pathlib import Path

from cases.planned_season import write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.move_game import Desk
from wholeball.usecases.show_board import show_board

TABLE = (
    "game,round,date,start,field,home,away,stage\n"
    "P1,1,2027-02-08,18:00,Meadow 1,seed 1,seed 4,play_off\n"
    "P2,1,2027-02-08,18:55,Meadow 1,seed 2,seed 3,play_off\n"
    "P3,2,2027-02-11,18:00,Meadow 1,winner of P1,winner of P2,play_off\n"
)
DRAW = "seed,team\n1,Cedar\n2,Ash\n3,Birch\n4,Dogwood\n"
MONDAY = date(2027, 2, 8)


def sides(folder: Path, draft: str = TABLE) -> dict[str, tuple[str, str]]:
    read = read_folder(FolderRecord(folder))
    desk = Desk(read=read, published=TABLE.encode(), text=draft.encode())
    rows = show_board(desk, MONDAY, MONDAY, None).rows
    shown = (one for row in rows for square in row.squares for one in square.games)
    return {one.game.game: (one.home, one.away) for one in shown}


def test_before_the_draw_the_seeds_are_shown(tmp_path: Path) -> None:
    assert sides(write_folder(tmp_path, timetable_csv=TABLE)) == {
        "P1": ("seed 1", "seed 4"),
        "P2": ("seed 2", "seed 3"),
        "P3": ("winner of P1", "winner of P2"),
    }


def test_after_it_the_teams_are_and_a_draft_of_other_games_is_shown_as_it_is_written(
    tmp_path: Path,
) -> None:
    folder = write_folder(tmp_path, timetable_csv=TABLE, bracket_csv=DRAW)
    drawn = {
        "P1": ("Cedar", "Dogwood"),
        "P2": ("Ash", "Birch"),
        "P3": ("winner of P1", "winner of P2"),
    }
    assert sides(folder) == drawn
    other = TABLE.replace("seed 1,seed 4", "seed 4,seed 1")
    assert sides(folder, other) == drawn | {"P1": ("seed 4", "seed 1")}
