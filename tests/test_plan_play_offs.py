"""Rounds of play-offs follow the plan, whether games move or not, and are published alone."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from cases.command_line import Run
from cases.planned_season import BEFORE, PLANNING, QUICK, SLOTS_HEAD, TABLE, done, planned
from cases.play_off_season import rulebook, six_teams
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import WholeballError
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.usecases.move_game import desk_of
from wholeball.usecases.publish_timetable import publish_timetable
from wholeball.usecases.set_play_offs import PlayOffTold, change_play_off, take_bracket

LONG: Final = (
    f"{SLOTS_HEAD}Meadow 1,monday,,,2027-01-25,18:00,21:40,,,\n"
    "Meadow 1,monday,,2027-02-01,,18:00,21:36,,,72\n"
)
NOW: Final = datetime(2026, 12, 1, 10, tzinfo=UTC)


@pytest.fixture
def record(tmp_path: Path, run: Run) -> FolderRecord:
    """A season with a timetable: two games each, then four teams go on."""
    made = six_teams(
        tmp_path / "season",
        rulebook_toml=rulebook("overall", places=4),
        planning_toml=f"games_each = 2\n{PLANNING}",
        slots_csv=LONG,
    )
    take_bracket(made, (7, 8))
    planned(run, made.path)
    return made


def rounds(record: FolderRecord) -> dict[str, int]:
    return {one.game: one.round for one in read_folder(record).open_fixtures}


def places(record: FolderRecord) -> set[tuple[object, ...]]:
    read = read_folder(record)
    every: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    return {(one.game, one.day, one.start, one.home, one.away) for one in every}


@pytest.mark.parametrize("words", [("plan",), ("repair", "--edited")])
def test_another_round_of_the_plan_is_written_and_the_league_keeps_its_games(
    record: FolderRecord, run: Run, words: tuple[str, ...]
) -> None:
    before = {(game, home, away) for game, _, _, home, away in places(record)}
    were = places(record)
    take_bracket(record, (9, 11))
    told = run("check", record.path)
    assert (
        "game P1 is seed 1 v seed 4 of round 9 in planning.toml and seed 1 v seed 4 of round 7 "
        "in timetable.csv."
    ) in " ".join(told.out.split())
    command, *more = words
    done(run, command, record.path, *more, *QUICK, *BEFORE)
    assert rounds(record) == {"P1": 9, "P2": 9, "P3": 11}
    assert {(game, home, away) for game, _, _, home, away in places(record)} == before
    if command == "repair":
        assert places(record) == were


def test_another_side_of_the_plan_is_another_game(record: FolderRecord, run: Run) -> None:
    change_play_off(record, "P1", PlayOffTold(game="P1", round=9, home="seed 1", away="seed 5"))
    done(run, "plan", record.path, *QUICK, *BEFORE)
    (first,) = (one for one in read_folder(record).open_fixtures if one.game == "P1")
    assert (first.round, f"{first.home}", f"{first.away}") == (9, "seed 1", "seed 5")


def test_a_timetable_of_other_rounds_alone_is_published_and_one_without_any_is_not(
    record: FolderRecord,
) -> None:
    base = (record.path / TABLE).read_bytes()
    with pytest.raises(WholeballError, match="The draft changes no game"):
        publish_timetable(record, base=base, text=base, now=NOW)
    text = base.replace(b"P3,8,", b"P3,9,")
    desk = desk_of(record, published=base, text=text)
    assert (desk.changes, desk.differs) == (0, True)
    publish_timetable(record, base=base, text=text, now=NOW)
    assert rounds(record) == {"P1": 7, "P2": 7, "P3": 9}
