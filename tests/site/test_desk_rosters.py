"""Tests the import of a whole league's rosters in one list: the look, the faults, the write."""

import io
from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.contrib.messages import get_messages
from django.core.files.uploadedfile import SimpleUploadedFile
from openpyxl import Workbook

from cases.desk_season import DeskSeason, a_desk, at
from wholeball.desk.views.held_list import MOST_HELD
from wholeball.files.folder import read_folder
from wholeball.store.snapshot import snapshot_of

pytestmark = pytest.mark.django_db

LIST: Final = """Team;Student ID;Player;Number;E-mail
Ash;20260001;Ida Brackwell;51;ida@example.invalid
 birch ;20260002;Wil Sandry;52;wil@example.invalid
Ash;20260003;Noor Hale;53;noor@example.invalid
"""


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


def looked(desk: DeskSeason, data: bytes, name: str = "league.csv") -> Any:
    given = SimpleUploadedFile(name, data)
    url = at("check_rosters")
    return desk.people["coordinator"].post(url, {"list": given})


def added(desk: DeskSeason, held: str) -> Any:
    url = at("add_rosters")
    return desk.people["coordinator"].post(url, {"held": held})


def rosters(desk: DeskSeason) -> dict[str, list[str]]:
    read = read_folder(snapshot_of(type(desk.season).objects.get(pk=desk.season.pk)))
    return {str(team): [one.name for one in listed] for team, listed in read.rosters.items()}


def faults(answer: Any) -> list[tuple[int | None, str]]:
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    return [(one.place.row, one.says) for one in answer.context["faults"]]


def test_a_look_writes_nothing_and_says_what_each_team_would_get(desk: DeskSeason) -> None:
    before = desk.texts()
    told = looked(desk, LIST.encode()).context["found"]
    had = rosters(desk)
    assert [(one.team, one.new, one.players) for one in told.teams] == [
        ("Ash", 2, len(had["Ash"]) + 2),
        ("Birch", 1, len(had["Birch"]) + 1),
    ]
    assert (told.new, told.already, told.left) == (3, 0, ("E-mail",))
    assert desk.texts() == before


def test_what_was_looked_at_is_added_whole_and_a_second_time_nothing_is(
    desk: DeskSeason,
) -> None:
    had = rosters(desk)
    answer = added(desk, looked(desk, LIST.encode()).context["held"])
    assert str([*get_messages(answer.wsgi_request)][-1]) == (
        "3 players added to 2 teams; 0 stood there already. To undo it: Season, Changes."
    )
    now = rosters(desk)
    assert now["Ash"] == [*had["Ash"], "Ida Brackwell", "Noor Hale"]
    assert now["Birch"] == [*had["Birch"], "Wil Sandry"]
    kept = desk.texts()["rosters.csv"].decode()
    assert "20260001" not in kept
    again = looked(desk, LIST.encode()).context["found"]
    assert (again.new, again.already) == (0, 3)


def test_every_fault_of_every_team_is_told_by_its_row_in_the_list(desk: DeskSeason) -> None:
    data = (
        "team,student_id,name,number\n"
        "Ash,20260001,Ida Brackwell,51\n"
        "Asch,20260002,Wil Sandry,\n"
        ",20260003,Noor Hale,\n"
        "Birch,20260004,=cmd(),\n"
        "Ash,20260005,Bo Tarn,51\n"
    )
    before = desk.texts()
    answer = looked(desk, data.encode())
    assert [row for row, _ in faults(answer)] == [3, 4, 5, 6]
    assert faults(answer)[-1] == (6, "number 51 of Ash stands on row 2 already.")
    assert "Did you mean Ash?" in unescape(answer.content.decode())
    mended = data.replace("Asch", "Cedar").replace("\n,2026", "\nCedar,2026")
    answer = looked(desk, mended.replace("=cmd()", "Di Lund").encode())
    assert faults(answer) == [(6, "number 51 of Ash stands on row 2 already.")]
    assert desk.texts() == before


def test_somebody_listed_for_two_teams_is_found_within_one_list(desk: DeskSeason) -> None:
    data = b"team,student_id,name\nAsh,20260001,Ida Brackwell\nBirch,20260001,Ida Brackwell\n"
    ((row, says),) = faults(looked(desk, data))
    assert row == 3
    assert says == (
        '"Ida Brackwell" is on the roster of Ash (by this list), and would be on that of Birch.'
    )


def test_an_id_of_two_names_in_one_list_is_told_with_all_other_faults(desk: DeskSeason) -> None:
    data = (
        "team,student_id,name,number\n"
        "Ash,20260001,Cal Thorn,51\n"
        "Ash,20260002,,52\n"
        "Ash,20260003,Wil Sandry,51\n"
        "Birch,20260001,Lea Dunn,53\n"
        "Asch,20260001,Noor Hale,x\n"
    )
    before = desk.texts()
    answer = looked(desk, data.encode())
    assert faults(answer) == [
        (3, "the cell is empty."),
        (4, "number 51 of Ash stands on row 2 already."),
        (5, '"Lea Dunn" has the id of "Cal Thorn" on row 2.'),
        (6, "the season has no team 'Asch'."),
        (6, 'number is "x".'),
    ]
    assert desk.texts() == before


def test_an_id_that_the_sheet_holds_as_a_number_is_refused_where_it_stands(
    desk: DeskSeason,
) -> None:
    book, out = Workbook(), io.BytesIO()
    for row in (
        ["e-mail", "name", "team", "student id"],
        ["i@example.invalid", "Ida Brackwell", "Ash", "20260001"],
        ["w@example.invalid", "Wil Sandry", "Birch", 20260002],
    ):
        book.worksheets[0].append(row)
    book.save(out)
    answer = looked(desk, out.getvalue(), "league.xlsx")
    (found,) = answer.context["faults"]
    assert (found.place.row, found.place.column) == (3, "student_id")


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"student_id,name\n1,Ida\n", "column team is missing."),
        (b"team,team name,student_id,name\n", "“team” and “team name” are both read as team."),
        (b"", "No list was sent."),
    ],
)
def test_a_list_without_what_it_needs_is_refused(
    desk: DeskSeason, data: bytes, says: str
) -> None:
    answer = looked(desk, data)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert says in unescape(answer.content.decode())


def test_a_list_of_one_byte_too_many_is_refused_before_it_is_read(desk: DeskSeason) -> None:
    most = b"team,student_id,name\n".ljust(MOST_HELD, b"\n")
    assert looked(desk, most).status_code == HTTPStatus.OK
    answer = looked(desk, most + b"\n")
    assert f"The list has {MOST_HELD + 1:,} bytes." in answer.content.decode()


def test_a_season_that_changed_meanwhile_gets_nothing_of_the_list(desk: DeskSeason) -> None:
    held = looked(desk, LIST.encode()).context["held"]
    one = looked(desk, b"team,student_id,name\nAsh,20260009,Cy Imbray\n").context["held"]
    added(desk, one)
    before = desk.texts()
    assert added(desk, held).status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert desk.texts() == before


def test_a_list_held_for_all_is_not_taken_for_one_team(desk: DeskSeason) -> None:
    held = looked(desk, LIST.encode()).context["held"]
    url = at("add_roster", "Ash")
    answer = desk.people["coordinator"].post(url, {"held": held})
    assert answer.status_code == HTTPStatus.BAD_REQUEST
