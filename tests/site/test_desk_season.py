"""Rosters, clearances and decisions at the desk: looked at first, then all of it or nothing."""

from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from openpyxl import Workbook

from cases.desk_season import DeskSeason, a_desk, at
from cases.stored import written_by
from wholeball.store.models import AuditRow, Change, Season

pytestmark = pytest.mark.django_db
LIST = "student_id,name,number,captain\n00123456,Ada Marrow,9,no\n00765432,Ben Tolland,10,yes\n"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


@pytest.fixture
def coordinator(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def looked(
    client: Client, team: str, data: bytes, name: str = "list.csv"
) -> tuple[int, str, str]:
    """Send a list, and return the status, the page, and what the page carries on."""
    answer = client.post(at("check_roster", team), {"list": SimpleUploadedFile(name, data)})
    return answer.status_code, answer.content.decode(), answer.context.get("held", "")


def test_a_list_is_looked_at_first_and_added_whole(
    desk: DeskSeason, coordinator: Client
) -> None:
    before = desk.texts()
    status, page, held = looked(coordinator, "Dogwood", LIST.encode())
    assert (status, desk.texts()) == (200, before)
    assert ("Nothing is written yet." in page, "Ada Marrow" in page) == (True, True)
    answer = coordinator.post(at("add_roster", "Dogwood"), {"held": held}, follow=True)
    assert "2 added to Dogwood; 0 stood there already." in answer.content.decode()
    rows = desk.texts()["rosters.csv"].decode()
    assert ("Dogwood,9,Ada Marrow" in rows, "00123456" in rows) == (True, False)


def test_a_reload_in_the_middle_of_an_import_leaves_nothing_half_done(
    desk: DeskSeason, coordinator: Client
) -> None:
    before = desk.texts()
    _, _, held = looked(coordinator, "Dogwood", LIST.encode())
    looked(coordinator, "Dogwood", LIST.encode())
    assert desk.texts() == before
    coordinator.post(at("add_roster", "Dogwood"), {"held": held})
    once = desk.texts()
    again = coordinator.post(at("add_roster", "Dogwood"), {"held": held}, follow=True)
    assert desk.texts() == once
    assert again.status_code in (200, 422)


def test_a_workbook_is_read_like_a_csv_file(coordinator: Client) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in LIST.splitlines():
        sheet.append(row.split(","))
    data = BytesIO()
    book.save(data)
    status, page, _ = looked(coordinator, "Dogwood", data.getvalue(), "list.xlsx")
    assert (status, "Ben Tolland" in page) == (200, True)


def test_every_fault_of_a_list_stands_beside_its_row_and_nothing_is_added(
    desk: DeskSeason, coordinator: Client
) -> None:
    before = desk.texts()
    wrong = "student_id,name,number\n00123456,,9\n00765432,Ben,100\n"
    status, page, held = looked(coordinator, "Dogwood", wrong.encode())
    assert (status, held, desk.texts()) == (422, "", before)
    assert page.count('<th scope="row">2</th>') == 1
    assert page.count('<th scope="row">3</th>') == 1


@pytest.mark.parametrize(
    "data",
    [b"", b"\x00\x01\x02", b"<svg onload='alert(1)'/>", b"x" * 1_500_001, b"\xd0\xcf\x11\xe0"],
)
def test_what_is_no_list_is_refused_with_its_cure(
    desk: DeskSeason, coordinator: Client, data: bytes
) -> None:
    before = desk.texts()
    status, page, held = looked(coordinator, "Dogwood", data)
    assert (status, held, desk.texts()) == (422, "", before)
    assert "Nothing was added." in page


def test_a_list_for_one_team_is_not_added_to_another(
    desk: DeskSeason, coordinator: Client
) -> None:
    _, _, held = looked(coordinator, "Dogwood", LIST.encode())
    before = desk.texts()
    assert coordinator.post(at("add_roster", "Cedar"), {"held": held}).status_code == 400
    assert desk.texts() == before


def test_a_list_that_was_changed_on_its_way_is_not_added(
    desk: DeskSeason, coordinator: Client
) -> None:
    _, _, held = looked(coordinator, "Dogwood", LIST.encode())
    before = desk.texts()
    assert (
        coordinator.post(at("add_roster", "Dogwood"), {"held": f"x{held}"}).status_code == 409
    )
    assert desk.texts() == before


def test_a_captain_adds_to_their_own_team_until_the_last_day(tmp_path: Path) -> None:
    games = (
        "game,round,date,start,field,home,away\n"
        "A1,1,2026-09-15,19:00,Field 1,Ash,Birch\n"
        "A2,2,2026-09-17,19:00,Field 1,Birch,Ash\n"
    )
    open_until = a_desk(tmp_path, timetable=games, crews="game,role,official\n")
    status, _, held = looked(open_until.people["captain"], "Ash", LIST.encode())
    assert status == 200
    answer = open_until.people["captain"].post(at("add_roster", "Ash"), {"held": held})
    assert answer.status_code == 302


def test_a_captain_reads_to_see_the_coordinator_and_never_why(tmp_path: Path) -> None:
    blocks = "person,since,until\nk-noor,2026-09-10,\n"
    coming = (
        "game,round,date,start,field,home,away\n"
        "A1,1,2026-09-15,19:00,Field 1,Ash,Birch\n"
        "A9,9,2026-12-03,19:00,Field 1,Ash,Birch\n"
    )
    desk = a_desk(tmp_path, not_cleared=blocks, timetable=coming, crews="game,role,official\n")
    said = {
        role: desk.people[role].get(at("team", "Ash")).content.decode()
        for role in ("captain", "coordinator")
    }
    assert ("See the coordinator." in said["captain"], "blocked" in said["captain"]) == (
        True,
        False,
    )
    assert "Is blocked at the gate." in said["coordinator"]


def test_a_block_is_set_and_lifted_and_the_second_block_is_refused(
    desk: DeskSeason, coordinator: Client
) -> None:
    page = coordinator.post(at("block"), {"person": "k-noor"}, follow=True)
    [block] = page.context["shown"].blocks
    assert (block.name, block.holds) == ("Noor Zephirou", True)
    again = coordinator.post(at("block"), {"person": "k-noor"}, follow=True)
    assert "blocked at the gate already" in again.content.decode()
    sent = {"person": "k-noor", "since": block.first.isoformat()}
    page = coordinator.post(at("lift"), sent, follow=True)
    assert [one.holds for one in page.context["shown"].blocks] == []
    page = coordinator.post(at("lift"), sent, follow=True)
    assert "does not hold any more" in page.content.decode()
    assert desk.texts()["not_cleared.csv"] == b"person,since,until\n"


def test_nobody_is_blocked_who_is_on_no_roster(desk: DeskSeason, coordinator: Client) -> None:
    before = desk.texts()
    page = coordinator.post(at("block"), {"person": "k-nobody"}, follow=True)
    assert page.context["shown"].blocks == ()
    assert desk.texts() == before


def test_a_decision_shows_games_and_dates_first_and_writes_when_sure(tmp_path: Path) -> None:
    coming = (
        "game,round,date,start,field,home,away\n"
        "A1,1,2026-09-15,19:00,Field 1,Ash,Birch\n"
        "A9,9,2026-12-03,19:00,Field 1,Ash,Birch\n"
    )
    desk = a_desk(tmp_path, timetable=coming, crews="game,role,official\n")
    coordinator = desk.people["coordinator"]
    sent = {
        "person": "k-noor",
        "ruled": "games",
        "games": "2",
        "ref": "H 11.4",
        "why": "A punch.",
    }
    before = desk.texts()
    page = coordinator.post(at("decide"), sent)
    [line] = page.context["found"].after
    assert (page.context["found"].before, line.still) == ((), "2 games left")
    assert line.barred == ("May not play: game A9, Thursday 3 December.",)
    assert desk.texts() == before
    version = str(Season.objects.get(pk=desk.season.pk).version)
    page = coordinator.post(
        at("decide"), {**sent, "sure": "yes", "version": version}, follow=True
    )
    assert [one.name for one in page.context["shown"].lines] == ["Noor Zephirou"]
    assert "A punch." not in page.content.decode()
    assert AuditRow.objects.filter(did="saw", what="autumn: suspensions").count() == 1


@pytest.mark.parametrize(
    ("more", "field"),
    [
        ({"games": ""}, "games"),
        ({"games": "9.0"}, "games"),
        ({"games": "\u0669"}, "games"),
        ({"games": "100"}, "games"),
        ({"person": "k-nobody"}, "person"),
        ({"until": "2026-02-30"}, "until"),
        ({"game": "Z9"}, "game"),
        ({"why": ""}, "why"),
    ],
)
def test_a_decision_that_cannot_be_meant_is_told_beside_its_field(
    desk: DeskSeason, coordinator: Client, more: dict[str, str], field: str
) -> None:
    sent = {
        "person": "k-noor",
        "ruled": "games",
        "games": "2",
        "ref": "H 11.4",
        "why": "A punch.",
    }
    before = desk.texts()
    page = coordinator.post(at("decide"), {**sent, **more})
    assert (page.status_code, desk.texts()) == (422, before)
    assert [*page.context["form"].errors] == [field]


def test_a_change_is_taken_back_and_the_taking_back_as_well(
    desk: DeskSeason, coordinator: Client
) -> None:
    before = desk.texts()
    coordinator.post(at("block"), {"person": "k-umaru"})
    _, _, held = looked(coordinator, "Dogwood", LIST.encode())
    coordinator.post(at("add_roster", "Dogwood"), {"held": held})
    added = desk.texts()["rosters.csv"]
    numbers = [
        one.change.pk
        for one in coordinator.get(at("history")).context["changes"]
        if one.change.name == "rosters.csv"
    ]
    page = coordinator.post(at("undo"), {"change": numbers[0]}, follow=True)
    assert "Taken back: the list of players, by coordinator" in page.content.decode()
    rows = desk.texts()["rosters.csv"].splitlines()
    assert [row.rstrip(b",") for row in rows[1:]] == [
        row.rstrip(b",") for row in before["rosters.csv"].splitlines()[1:]
    ]
    number = page.context["changes"][0].change.pk
    coordinator.post(at("undo"), {"change": number})
    assert desk.texts()["rosters.csv"] == added


def test_a_change_that_others_built_on_is_not_taken_back(
    desk: DeskSeason, coordinator: Client
) -> None:
    coordinator.post(at("block"), {"person": "k-noor"})
    [number] = [
        one.change.pk
        for one in coordinator.get(at("history")).context["changes"]
        if one.change.name == "not_cleared.csv"
    ]
    since = Season.objects.get(pk=desk.season.pk)
    assert since.version > 0
    [block] = coordinator.get(at("clearances")).context["shown"].blocks
    coordinator.post(at("lift"), {"person": "k-noor", "since": block.first.isoformat()})
    before = desk.texts()
    page = coordinator.post(at("undo"), {"change": number}, follow=True)
    assert "was changed again since then" in page.content.decode()
    assert desk.texts() == before


def test_a_change_of_another_season_is_missing(coordinator: Client) -> None:
    assert coordinator.post(at("undo"), {"change": "999999"}).status_code == 404


def test_when_something_was_changed_is_told_by_the_clocks_of_the_season(
    desk: DeskSeason, coordinator: Client
) -> None:
    coordinator.post(at("block"), {"person": "k-umaru"})
    Change.objects.update(at=datetime(2026, 9, 17, 2, 30, tzinfo=UTC))
    text = coordinator.get(at("history")).content.decode()
    assert "Wednesday 16 September, 21:30 CDT" in text
    written_by(desk.season).write({"teams.csv": b"team,pool,division\nAsh,A,none\n"})
    Change.objects.update(at=datetime(2026, 9, 17, 2, 30, tzinfo=UTC))
    text = coordinator.get(at("history")).content.decode()
    assert "Thursday 17 September, 02:30 UTC" in text
