"""What people are told of a timetable: the first is out, a later one changed."""

from pathlib import Path

from cases.planned_season import GAMES, write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.letters import Reached
from wholeball.usecases.move_game import Desk
from wholeball.usecases.publish_timetable import who_is_told

FIRST = f"{GAMES}1,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
OUT = "The timetable of Harbour winter eights is out. These are your games:"
CHANGED = "The timetable of Harbour winter eights changed. This is what changed for you:"
LATER = f"{GAMES}1,1,2027-01-04,18:55,Meadow 1,Ash,Birch\n"


def told(folder: Path, published: str, text: str) -> list[tuple[str, str, str]]:
    read = read_folder(FolderRecord(write_folder(folder, timetable_csv=text)))
    desk = Desk(read=read, published=published.encode(), text=text.encode())
    return [
        (one.who, one.subject, one.body.split("\n\nYou are told")[0])
        for one in who_is_told(desk, Reached())
    ]


def test_the_first_timetable_is_out_and_a_later_one_says_what_changed(tmp_path: Path) -> None:
    where, later = (f"Monday 4 January at {start}, Meadow 1" for start in ("18:00", "18:55"))
    assert told(tmp_path, "", FIRST) == [
        (
            f"Captain of {team}",
            "Harbour winter eights: your timetable",
            f"{OUT}\n\nGame 1 against {other} is new: {where}.",
        )
        for team, other in (("Ash", "Birch"), ("Birch", "Ash"))
    ]
    assert told(tmp_path, FIRST, LATER) == [
        (
            f"Captain of {team}",
            "Harbour winter eights: your timetable changed",
            f"{CHANGED}\n\nGame 1 against {other} moves from {where} to {later}.",
        )
        for team, other in (("Ash", "Birch"), ("Birch", "Ash"))
    ]
