"""Tests the ways in which a first season begins, and that what is wrong begins nothing."""

import io
import tomllib
import zipfile
from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.contrib.messages import get_messages
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from openpyxl import Workbook

from cases.stored import before_a_season
from wholeball.files.archive import MOST_PACKED
from wholeball.store.models import Account, Membership, Organisation, Season
from wholeball.store.record import DatabaseRecord

EXAMPLE: Final = Path(__file__).resolve().parents[2] / "examples/lantern-hill"
PRESET: Final = {
    "name": "Autumn eights",
    "preset": "eight",
    "timezone": "America/New_York",
    "first_day": "2027-01-18",
}

pytestmark = pytest.mark.django_db


@pytest.fixture
def coordinator(client: Client) -> Client:
    return before_a_season(client)


def sent(client: Client, way: str, **typed: Any) -> Any:
    return client.post(
        "/start/", {"way": way, **{f"{way}-{name}": value for name, value in typed.items()}}
    )


def text_of(season: Season, name: str) -> str:
    return DatabaseRecord(season).read(name, 1_000_000).decode()


def zipped(folder: Path, **instead: str) -> SimpleUploadedFile:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for path in sorted(folder.rglob("*")):
            if path.is_file():
                name = path.relative_to(folder).as_posix()
                archive.writestr(name, instead.get(name.partition(".")[0]) or path.read_bytes())
    return SimpleUploadedFile("hill.zip", out.getvalue())


def test_a_preset_begins_a_season_under_its_name_whatever_signs_are_in_it(
    coordinator: Client,
) -> None:
    name = 'Autumn "eights" \\ \x7f é'
    begun = sent(coordinator, "preset", **{**PRESET, "name": name})
    assert begun.headers["Location"] == "/desk/meadow/autumn-eights-e/today/"
    season = Season.objects.get()
    assert (season.name, season.slug) == (name, "autumn-eights-e")
    assert tomllib.loads(text_of(season, "season.toml"))["name"] == name


def test_a_form_with_a_gap_is_answered_by_422_and_keeps_what_was_typed(
    coordinator: Client,
) -> None:
    refused = sent(coordinator, "preset", **{**PRESET, "first_day": ""})
    assert refused.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert b'value="Autumn eights"' in refused.content
    assert b"There is no first day yet. Choose one." in refused.content
    assert not Season.objects.exists()


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_a_spreadsheet_of_teams_begins_a_season_with_them(
    coordinator: Client, kind: str
) -> None:
    rows = [["team", "pool"], ["Copper Heron", "A"], ["Brass Otters", "B"]]
    data = "\n".join(",".join(row) for row in rows).encode()
    if kind == "xlsx":
        book, out = Workbook(), io.BytesIO()
        for row in rows:
            book.worksheets[0].append(row)
        book.save(out)
        data = out.getvalue()
    begun = sent(
        coordinator, "preset", file=SimpleUploadedFile(f"teams.{kind}", data), **PRESET
    )
    assert begun.headers["Location"] == "/desk/meadow/autumn-eights/today/"
    assert text_of(Season.objects.get(), "teams.csv") == (
        "team,pool,colours,second_colours,division,block\n"
        "Copper Heron,A,,,,\n"
        "Brass Otters,B,,,,\n"
    )


SIGN_UPS: Final = """Tuesday eights: sign-up form

Timestamp;Team Name ;Captain e-mail;Shirt colour;Level wanted
2027-01-01 12:30;Paper Moths;ida@example.invalid;white;competitive

2027-01-02 12:31;Salt & Vinegar;bo@example.invalid;;don't mind
"""


def test_a_sign_up_form_is_read_by_the_names_that_people_give_its_columns(
    coordinator: Client,
) -> None:
    given = SimpleUploadedFile("sign-ups.csv", SIGN_UPS.encode())
    begun = sent(coordinator, "preset", file=given, **PRESET)
    assert text_of(Season.objects.get(), "teams.csv") == (
        "team,pool,colours,second_colours,division,block\n"
        "Paper Moths,A,white,,,\n"
        "Salt & Vinegar,A,,,,\n"
    )
    said = [str(one) for one in get_messages(begun.wsgi_request)]
    assert (
        "Autumn eights has begun. 2 teams came in: teams from “Team Name” and colours from"
        " “Shirt colour”. 2 addresses of captains: People and roles, Invite the captains."
        " Not read: “Timestamp”, “Level wanted”."
    ) in said


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"who,pool\nAsh,A\n", "sign-ups.csv row 1: no column holds the teams"),
        (b"team,Team name\nAsh,Ash\n", "are both read as team. Give one of them another name."),
        (b"Title\n\nTeam name\nAsh\n\n=1+1\n", "sign-ups.csv row 6"),
        (b"Team name\nAsh\nash\n", "sign-ups.csv row 3"),
        (b"\xd0\xcf\x11\xe0", "Save it as .xlsx without a password, or as CSV."),
        (b"", "The file is empty."),
    ],
)
def test_a_list_that_cannot_be_read_is_told_with_the_row_it_has_there(
    coordinator: Client, data: bytes, says: str
) -> None:
    refused = sent(
        coordinator, "preset", file=SimpleUploadedFile("sign-ups.csv", data), **PRESET
    )
    assert refused.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert says in unescape(refused.content.decode())
    assert not Season.objects.exists()


def test_every_fault_of_a_list_of_teams_is_shown_with_its_row_and_nothing_begins(
    coordinator: Client,
) -> None:
    data = b"team,pool\nCopper Heron,A\nCopper Heron,A\n,B\n"
    refused = sent(coordinator, "preset", file=SimpleUploadedFile("teams.csv", data), **PRESET)
    assert refused.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert b"teams.csv row 3" in refused.content
    assert b"teams.csv row 4" in refused.content
    assert not Season.objects.exists()


def test_a_season_folder_comes_in_whole(coordinator: Client) -> None:
    begun = sent(coordinator, "folder", file=zipped(EXAMPLE), name="Hill")
    assert begun.headers["Location"] == "/desk/meadow/hill/today/"
    season = Season.objects.get()
    assert text_of(season, "results.csv") == (EXAMPLE / "results.csv").read_text()


def test_a_folder_with_a_fault_begins_nothing_and_names_file_and_cure(
    coordinator: Client,
) -> None:
    broken = zipped(EXAMPLE, rulebook="schema = 1\nname = [")
    refused = sent(coordinator, "folder", file=broken, name="Hill")
    assert refused.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert b"rulebook.toml line 2" in refused.content
    assert not Season.objects.exists()


@pytest.mark.parametrize("name", ["teams.xlsx", "TEAMS.CSV"])
def test_a_list_in_the_place_of_a_folder_is_sent_to_its_own(
    coordinator: Client, name: str
) -> None:
    given = SimpleUploadedFile(name, b"team\nAsh\n")
    refused = sent(coordinator, "folder", file=given, name="Hill")
    assert refused.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    told = f"{name} is a list, not a season folder. Choose it under “From a preset”"
    assert told in refused.content.decode()


def test_a_file_of_the_most_bytes_is_read_and_one_more_is_not(coordinator: Client) -> None:
    says = "Choose one of at most 10 MB."
    for size, is_told in ((MOST_PACKED, False), (MOST_PACKED + 1, True)):
        given = SimpleUploadedFile("hill.zip", b"P" * size)
        answer = sent(coordinator, "folder", file=given, name="Hill")
        assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
        assert (says in answer.content.decode()) is is_told


def test_the_example_stands_there_at_once_and_is_not_public(coordinator: Client) -> None:
    begun = sent(coordinator, "example").headers["Location"]
    assert begun == "/desk/meadow/lantern-hill-an-example/today/"
    season = Season.objects.get()
    assert (season.name, season.is_public) == ("Lantern Hill, an example", False)
    again = sent(coordinator, "example")
    assert again.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert b"Give this one another name." in again.content


def test_the_menu_leads_who_runs_a_league_to_another_season(coordinator: Client) -> None:
    link = '<a href="/start/">Begin a season</a>'
    assert link in coordinator.get("/account/").content.decode()
    league = Organisation.objects.get()
    season = Season.objects.create(organisation=league, slug="hill", name="Hill")
    account = Account.objects.create_user("kim@league.invalid")
    Membership.objects.create(
        organisation=league, account=account, role="coordinator", season=season
    )
    other = Client()
    other.force_login(account)
    assert link not in other.get("/account/").content.decode()


def test_who_coordinates_nothing_finds_no_page_to_begin_a_season(client: Client) -> None:
    before_a_season(client, "supervisor")
    assert client.get("/start/").status_code == HTTPStatus.NOT_FOUND
    assert sent(client, "example").status_code == HTTPStatus.NOT_FOUND
    assert not Season.objects.exists()
