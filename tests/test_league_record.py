"""A season that is kept elsewhere goes as one that is kept in a folder: same words, same texts."""

from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from shutil import move

import pytest

from cases.kept_texts import KeptTexts
from cases.paper_cards import ordinary
from cases.paper_season import author, write_season
from cases.planned_season import write_folder
from cases.roster_season import MOTHS, season_of_three
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.given_list import GivenList
from wholeball.files.paper_card import read_card
from wholeball.files.student_ids import IdKey
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.season.shares import Drawing
from wholeball.solvers.timetable.budget import Budget
from wholeball.usecases.add_to_roster import add_to_roster
from wholeball.usecases.ask_ruling import rulebook_to_ask
from wholeball.usecases.award_game import Award, award_game
from wholeball.usecases.certify_game import certify_game, reopen_game
from wholeball.usecases.check_season import check_season
from wholeball.usecases.draw_lots import check_draw, commit_to_draw, reveal_draw
from wholeball.usecases.enter_game import (
    enter_card,
    game_to_enter,
    redo,
    undo,
    write_template,
)
from wholeball.usecases.explain_timetable import explain_timetable
from wholeball.usecases.make_pages import make_pages
from wholeball.usecases.plan_timetable import plan_timetable
from wholeball.usecases.repair_timetable import Happened, repair_timetable
from wholeball.usecases.season_people import people_of_folder
from wholeball.usecases.season_report import season_report
from wholeball.usecases.show_bracket import show_bracket
from wholeball.usecases.show_game import show_game
from wholeball.usecases.show_odds import show_odds
from wholeball.usecases.show_ratings import show_ratings
from wholeball.usecases.show_results import show_results
from wholeball.usecases.show_standings import show_standings
from wholeball.usecases.start_season import start_season

M1 = GameId("M1")
NOW = datetime(2026, 12, 1, 10, tzinfo=UTC)
DAY = date(2026, 9, 20)
QUICK = Budget(work=2.0)
KNOWN = "seven times seven"
LIST = GivenList(
    "list.csv", b"student_id,name,number,captain\nzz-100,Vesna Orlaith,7,\nzz-101,Iker Sol,8,\n"
)
Course = Callable[[LeagueRecord], Iterator[object]]


def _told(do: Callable[[], object]) -> object:
    """Return what comes of it, or in words why it is refused."""
    try:
        return do()
    except InputFaults as refused:
        return refused.faults
    except WholeballError as refused:
        return refused.says, refused.fix, refused.code


def a_game(record: LeagueRecord) -> Iterator[object]:
    yield enter_card(game_to_enter(record, M1), ordinary(), by=author(1))
    yield write_template(game_to_enter(record, M1))
    yield _told(lambda: write_template(game_to_enter(record, M1)))
    yield read_card(record, M1, game_to_enter(record, M1).rules)
    yield undo(game_to_enter(record, M1), by=author(2))
    yield _told(lambda: certify_game(record, M1, by=author(3)))
    yield redo(game_to_enter(record, M1), by=author(4))
    yield certify_game(record, M1, by=author(5), reason="Both captains agree.")
    yield _told(lambda: certify_game(record, M1, by=author(6)))
    yield reopen_game(record, M1, by=author(7), reason="A goal was left out.")
    award = Award(game=M1, to="home", why="A player was not on the roster.", ref="H 5.1")
    yield award_game(record, award, on=DAY, writes=True)
    yield show_game(record, M1, reader="officials", html=None, printed=NOW)


def shown(record: LeagueRecord) -> Iterator[object]:
    yield enter_card(game_to_enter(record, M1), ordinary(), by=author(1))
    yield show_standings(record, round_=None, html=None, svg=None, printed=NOW)
    yield show_results(record)
    yield show_odds(record, Drawing(seed=7, seasons=20))
    yield _told(lambda: show_ratings(record, staff=True))
    yield check_season(record, on=DAY)
    yield people_of_folder(record, DAY)
    yield season_report(record, out=None, printed=NOW)
    yield _told(lambda: show_bracket(record, draw=True))
    yield rulebook_to_ask(None, record)


def a_roster(record: LeagueRecord) -> Iterator[object]:
    key, other = IdKey(b"a key for tests, and for nothing else"), IdKey(b"another key " * 4)
    yield add_to_roster(record, LIST, team=MOTHS, key=key, day=DAY)
    yield _told(lambda: add_to_roster(record, LIST, team=MOTHS, key=other, day=DAY))
    read = read_folder(record)
    yield read.season, read.rosters, read.remarks


def a_timetable(record: LeagueRecord) -> Iterator[object]:
    yield plan_timetable(record, QUICK, now=NOW, writes=True).written
    rain = Happened(lost_nights=((date(2027, 1, 11), None),))
    yield repair_timetable(record, rain, QUICK, now=NOW, writes=True).written
    found = explain_timetable(record, now=NOW)
    yield found.problem, found.report, found.why_not


def a_new_one(record: LeagueRecord) -> Iterator[object]:
    yield _told(lambda: read_folder(record).season.league.name)
    started = {"preset": "eight", "timezone": "Europe/London"}
    start_season(record, **started, first_day=date(2027, 1, 18))
    yield _told(lambda: start_season(record, **started, first_day=date(2027, 1, 18)))
    read = read_folder(record)
    yield read.season, read.rosters, read.remarks


def a_draw(record: LeagueRecord) -> Iterator[object]:
    yield commit_to_draw(record, label="A", participants=("Ash", "Birch"), secret=KNOWN)
    yield reveal_draw(record, public="7 and 3")
    yield check_draw(record, "draw.json")
    yield _told(lambda: reveal_draw(record, public="8"))
    yield _told(lambda: check_draw(record, "no.json"))


def _nothing(folder: Path) -> Path:
    return folder


@pytest.mark.parametrize(
    ("begun", "course"),
    [
        (write_season, a_game),
        (write_season, shown),
        (season_of_three, a_roster),
        (write_folder, a_timetable),
        (_nothing, a_draw),
        (_nothing, a_new_one),
    ],
)
def test_a_season_in_memory_goes_as_the_same_season_in_a_folder(
    tmp_path: Path, begun: Callable[[Path], Path], course: Course
) -> None:
    folder = begun(tmp_path / "season")
    kept = KeptTexts(place=str(folder), texts=_texts(folder))
    in_folder = list(course(FolderRecord(folder)))
    away = Path(move(folder, tmp_path / "away"))
    assert list(course(kept)) == in_folder
    assert kept.texts == _texts(away)
    assert not folder.exists()


def test_pages_of_a_season_in_memory_are_those_of_the_folder(tmp_path: Path) -> None:
    folder = write_season(tmp_path / "season")
    enter_card(game_to_enter(FolderRecord(folder), M1), ordinary(), by=author(1))
    make_pages(FolderRecord(folder), tmp_path / "pages", printed=NOW)
    kept = KeptTexts(place=str(folder), texts=_texts(folder))
    move(folder, tmp_path / "away")
    make_pages(kept, tmp_path / "others", printed=NOW)
    assert _texts(tmp_path / "others") == _texts(tmp_path / "pages")
    assert "game-M1.html" in _texts(tmp_path / "pages")


def _texts(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }
