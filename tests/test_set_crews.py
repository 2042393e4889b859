"""Who would work two games that start at once is told by the games, and nothing is written."""

from datetime import date
from pathlib import Path
from typing import Final

import pytest

from cases.desk_season import CREW, OFFICIALS
from cases.people_season import RULES, write_people
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import InputFaults
from wholeball.kernel.identity import GameId
from wholeball.usecases.set_crews import set_crews

DAY: Final = date(2026, 9, 17)
GAMES: Final = (
    "game,round,date,start,field,home,away\n"
    "1,1,2026-09-17,19:00,Field 1,Ash,Birch\n"
    "2,1,2026-09-17,19:00,Field 2,Cedar,Dogwood\n"
    "3,2,2026-09-17,20:00,Field 1,Ash,Elder\n"
)


def test_two_games_that_start_at_once_are_named_and_two_that_do_not_are_kept(
    tmp_path: Path,
) -> None:
    folder = write_people(
        tmp_path / "season", rules=RULES + CREW, officials=OFFICIALS, timetable=GAMES
    )
    record = FolderRecord(folder)
    one, two, three = ((GameId(game), 0) for game in "123")
    with pytest.raises(InputFaults) as refused:
        set_crews(record, DAY, {one: "Ada Quill", two: "Ada Quill", three: "Ada Quill"})
    assert [(fault.code, fault.says, fault.cure) for fault in refused.value.faults] == [
        (
            "clash",
            "Ada Quill would work 2 games at 19:00: Ash v Birch and Cedar v Dogwood.",
            "Give all but one of them somebody else.",
        )
    ]
    assert not (folder / "crews.csv").exists()
    set_crews(record, DAY, {one: "Ada Quill", three: "Ada Quill"})
    assert (folder / "crews.csv").read_text().splitlines()[1:] == [
        "1,referee,Ada Quill,",
        "3,referee,Ada Quill,",
    ]
