"""What use cases say of a season of the site: cures stand on pages, in words that people say."""

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from cases.board_season import a_board
from cases.desk_season import a_desk, put_season
from cases.paper_season import author
from cases.stored import a_season, written_by
from wholeball.files.folder import read_folder
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.reports.spoken import spoken
from wholeball.store.record import DatabaseRecord
from wholeball.usecases.certify_game import certify_game, reopen_game
from wholeball.usecases.check_season import check_season
from wholeball.usecases.enter_game import game_to_enter, undo

pytestmark = pytest.mark.django_db
A1: Final = GameId("A1")
A2: Final = GameId("A2")


@pytest.fixture
def record(tmp_path: Path) -> DatabaseRecord:
    return written_by(a_desk(tmp_path).season)


def refused(do: Callable[[], object]) -> str:
    with pytest.raises(WholeballError) as error:
        do()
    return spoken(str(error.value))


def certified(record: DatabaseRecord) -> None:
    certify_game(record, A1, by=author(5), reason="")


def remarks(record: DatabaseRecord, on: date = date(2026, 10, 1)) -> list[str]:
    return [spoken(str(one)) for one in check_season(record, on=on).remarks]


def test_what_certifying_and_reopening_refuse_is_mended_on_the_page_of_the_game(
    record: DatabaseRecord,
) -> None:
    certified(record)
    assert [
        refused(lambda: certified(record)),
        refused(lambda: certify_game(record, A2, by=author(6), reason="")),
        refused(lambda: reopen_game(record, A2, by=author(6), reason="So.")),
        refused(lambda: reopen_game(record, A1, by=author(6), reason="")),
    ] == [
        (
            "The result of game A1 is certified already, by Kim. To certify another, first: "
            "on the page of game A1, Reopen the result."
        ),
        (
            "Game A2 has not ended by what is recorded of it. Enter the rest first: "
            "on the page of game A2, Mend the scorecard."
        ),
        "The result of game A2 is not certified. There is nothing to reopen.",
        (
            "A result is reopened for a reason, and none is given. Give one, such as: "
            '"A goal was left out."'
        ),
    ]


def test_what_was_taken_back_is_brought_back_on_the_page_of_the_game(
    record: DatabaseRecord,
) -> None:
    undo(game_to_enter(record, A1), by=author(6))
    assert [
        refused(lambda: undo(game_to_enter(record, A1), by=author(7))),
        refused(lambda: undo(game_to_enter(record, A2), by=author(7))),
        refused(lambda: game_to_enter(record, GameId("X9"))),
    ] == [
        (
            "All that was entered of game A1 has been taken back. There is nothing to take back. "
            "To bring it back: on the page of game A1, Bring back what was taken back."
        ),
        "No scorecard of game A2 has been entered. There is nothing to take back.",
        "There is no game X9 in the timetable. Use one of: A1, A2, A3, A4, C1, C2.",
    ]


def test_a_result_to_certify_and_one_that_came_late_lead_to_the_page_of_the_game(
    record: DatabaseRecord,
) -> None:
    unknown = (
        "Game A1: number 10 of Birch was shown yellow, and the roster has no such number. "
        "Compare with the scorecard, or add the player to the list of players."
    )
    assert remarks(record) == [
        (
            "Game A1: the result counts, and is not certified yet. Look at it, then certify it: "
            "on the page of game A1, Certify the result."
        ),
        unknown,
    ]
    certified(record)
    undo(game_to_enter(record, A1), by=author(7))
    late, *others = remarks(record)
    assert others == [unknown]
    assert late.endswith(
        "; the official result is unchanged. If they should count: "
        "on the page of game A1, Reopen the result."
    )


def test_a_timetable_that_lacks_a_game_is_planned_again_under_the_calendar(
    tmp_path: Path,
) -> None:
    season = a_season()
    put_season(season, a_board(tmp_path / "season"))
    record = written_by(season)
    rows = record.read("timetable.csv", 1_000_000).splitlines(keepends=True)
    record.write({"timetable.csv": b"".join(rows[:-1])})
    assert remarks(record) == [
        (
            "The timetable: the season's plan asks for 5 games of each team of pool A, and the "
            "timetable has 2. Plan again: under Calendar, Plan, repair, explain."
        )
    ]


def test_a_season_that_does_not_fit_together_names_lists_and_rows(
    record: DatabaseRecord,
) -> None:
    rosters = record.read("rosters.csv", 1_000_000)
    record.write({"rosters.csv": rosters + b"Ahs,4,Nia,\n"})
    assert refused(lambda: read_folder(record)) == (
        'The list of players, row 11, column team: "Ahs" is no team in the list of teams. '
        "Did you mean Ash?\nMend what is listed and try again."
    )
    assert refused(lambda: read_folder(written_by(a_season("Empty")))) == (
        "Empty has no facts yet. Import a season folder, or start from a preset."
    )
