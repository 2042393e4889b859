"""The pages of what was asked for at sign-up: shown by block, changed, taken out, undone."""

from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.test import Client

from cases.answers import said, words
from cases.desk_season import DeskSeason, a_desk, at
from cases.sign_up_season import ALONE_HEAD, FILES, HEAD
from wholeball.store.models import AuditRow, Change, Season

pytestmark = pytest.mark.django_db
PAGE: Final = at("sign_ups")
HERONS: Final = at("sign_up", "Tuesday", "Heron United")
WIL: Final = at("alone", "Tuesday", "lone-1")
TOLD: Final = {
    "team": "Heron United",
    "block": "Thursday",
    "day": "2026-08-23",
    "time": "12:00",
    "captain": "Ida Brackwell",
    "players": "12",
    "colours": "blue",
    "second_colours": "",
}
OF_WIL: Final = {
    "name": "Wil Sandry",
    "block": "Thursday",
    "day": "2026-08-23",
    "time": "12:00",
}
ROW: Final = "Heron United,Tuesday,2026-08-20 09:05,Ida Brackwell,11,blue,grey"
CHANGED: Final = "Heron United,Thursday,2026-08-23 12:00,Ida Brackwell,12,blue,"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path, **FILES)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def version() -> str:
    return f"{Season.objects.get().version}"


def send(kim: Client, address: str, told: dict[str, str], **changed: str) -> Any:
    return kim.post(address, {**told, "version": version(), **changed})


def rows(desk: DeskSeason, name: str = "sign_ups.csv") -> str:
    return desk.texts()[name].decode()


def test_sign_ups_stand_by_block_and_each_leads_to_its_page(kim: Client) -> None:
    page = words(kim.get(PAGE))
    assert "3 teams for 2 places." in page
    assert "Asks for <bdi>Thursday</bdi> as well." in page
    assert "Captain <bdi>Ida Brackwell</bdi>. 11 players." in page
    assert (f'href="{HERONS}"' in page, f'href="{WIL}"' in page) == (True, True)
    newest = AuditRow.objects.order_by("pk").last()
    assert newest is not None
    assert (newest.did, newest.what) == ("saw", "autumn: the sign-ups")


def test_the_season_its_blocks_and_its_doubts_lead_to_the_sign_ups(kim: Client) -> None:
    for name in ("season", "divisions", "doubts"):
        assert f'href="{PAGE}"' in words(kim.get(at(name))), name


def test_a_season_without_sign_ups_says_so_and_leads_on(tmp_path: Path) -> None:
    page = words(a_desk(tmp_path).people["coordinator"].get(PAGE))
    assert "Nobody asks for a block." in page
    assert f'href="{at("pools")}">To teams and pools' in page


def test_what_a_team_asked_for_is_offered_changed_and_undone(
    desk: DeskSeason, kim: Client
) -> None:
    form = kim.get(HERONS).context["form"]
    assert {name: form[name].value() for name in ("team", "block", "players")} == {
        "team": "Heron United",
        "block": "Tuesday",
        "players": 11,
    }
    page = words(kim.get(HERONS))
    assert ('value="2026-08-20"' in page, 'value="09:05"' in page) == (True, True)
    answer = send(kim, HERONS, TOLD)
    assert (answer.url, said(answer)) == (
        PAGE,
        "Heron United: the sign-up is kept as it is now. To undo it: Season, Changes.",
    )
    assert rows(desk) == FILES["sign_ups"].replace(ROW, CHANGED)
    change = Change.objects.order_by("-version")[0]
    assert "The list of sign-ups" in words(kim.get(at("history")))
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert rows(desk) == FILES["sign_ups"]


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"team": " "}, "team", "There is no name yet. Write one."),
        ({"block": "Friday"}, "block", "Select a valid choice. Friday is not one of the"),
        ({"block": "Tuesday", "team": "Coots"}, "block", "Coots asks for Tuesday already."),
        ({"day": ""}, "day", "There is no day yet. Choose one."),
        ({"day": "2026-08-32"}, "day", "This is no day of the calendar."),
        ({"time": ""}, "time", "There is no time yet."),
        ({"time": "24:05"}, "time", "This is no time of the day."),
        ({"players": "100"}, "players", "It is more than 99."),
        ({"players": "-1"}, "players", "It is less than 0."),
        ({"players": "ten"}, "players", "This is no whole number."),
    ],
)
def test_what_cannot_be_is_told_beside_its_field_and_what_was_typed_stays(
    desk: DeskSeason, kim: Client, changed: dict[str, str], field: str, says: str
) -> None:
    answer = send(kim, HERONS, TOLD, **changed)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert list(form.errors) == [field]
    assert says in form.errors[field][0]
    assert form["captain"].value() == "Ida Brackwell"
    assert rows(desk) == FILES["sign_ups"]


def test_all_that_is_wrong_is_told_at_once(kim: Client) -> None:
    answer = send(kim, HERONS, TOLD, day="", players="many", block="Friday")
    assert list(answer.context["form"].errors) == ["block", "day", "players"]


def test_who_changed_an_older_sign_up_is_told_and_loses_nothing_typed(
    desk: DeskSeason, kim: Client
) -> None:
    stale = version()
    send(kim, HERONS, TOLD, block="Tuesday")
    now = rows(desk)
    answer = send(kim, HERONS, TOLD, version=stale, captain="Ora Fenwick")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert "It was changed while you worked on it." in form.errors["__all__"][0]
    assert (form["captain"].value(), answer.context["version"]) == ("Ora Fenwick", version())
    assert rows(desk) == now
    again = answer.context["version"]
    assert send(kim, HERONS, TOLD, version=again, captain="Ora Fenwick").url == PAGE


def test_a_sign_up_that_is_gone_meanwhile_is_told_upon_its_page(kim: Client) -> None:
    send(kim, at("drop_sign_up"), {"block": "Tuesday", "team": "Heron United"})
    assert kim.get(HERONS).status_code == HTTPStatus.NOT_FOUND
    answer = send(kim, HERONS, TOLD)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "This sign-up is not there any more." in words(answer)
    assert answer.context["form"]["captain"].value() == "Ida Brackwell"
    gone = send(kim, at("drop_sign_up"), {"block": "Tuesday", "team": "Heron United"})
    assert gone.status_code == HTTPStatus.CONFLICT


def test_a_sign_up_is_taken_out_and_undone_among_the_changes(
    desk: DeskSeason, kim: Client
) -> None:
    answer = send(kim, at("drop_sign_up"), {"block": "Tuesday", "team": "Heron United"})
    assert (answer.url, said(answer)) == (
        PAGE,
        "The sign-up is taken out. To undo it: Season, Changes.",
    )
    assert rows(desk) == FILES["sign_ups"].replace(f"{ROW}\n", "")
    kim.post(at("undo"), {"change": f"{Change.objects.order_by('-version')[0].pk}"})
    assert rows(desk) == FILES["sign_ups"]


def test_a_block_goes_once_its_last_sign_up_is_taken_out(desk: DeskSeason, kim: Client) -> None:
    refused = send(kim, at("drop_block"), {"block": "Thursday"})
    assert "Give whoever asks for it another block under Sign-ups" in words(refused)
    send(kim, at("drop_sign_up"), {"block": "Thursday", "team": "Coots"})
    assert send(kim, at("drop_block"), {"block": "Thursday"}).url == at("divisions")
    assert "Thursday" not in rows(desk, "blocks.csv")


def test_a_player_alone_is_changed_and_taken_out(desk: DeskSeason, kim: Client) -> None:
    assert kim.get(WIL).context["form"]["name"].value() == "Wil Sandry"
    answer = send(kim, WIL, OF_WIL)
    assert (answer.url, said(answer)) == (
        PAGE,
        "Wil Sandry: the sign-up is kept as it is now. To undo it: Season, Changes.",
    )
    assert rows(desk, "alone.csv") == (
        f"{ALONE_HEAD}lone-1,Wil Sandry,Thursday,2026-08-23 12:00\n"
    )
    stale = send(kim, WIL, OF_WIL)
    assert stale.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "This sign-up is not there any more." in words(stale)
    answer = send(kim, at("drop_alone"), {"block": "Thursday", "person": "lone-1"})
    assert answer.url == PAGE
    assert rows(desk, "alone.csv") == ALONE_HEAD
    kim.post(at("undo"), {"change": f"{Change.objects.order_by('-version')[0].pk}"})
    assert "lone-1,Wil Sandry,Thursday" in rows(desk, "alone.csv")


def test_a_name_with_signs_of_addresses_and_of_pages_is_changed_like_any_other(
    tmp_path: Path,
) -> None:
    odd = "A/B <b>%2F & Ünder"
    files = {**FILES, "sign_ups": f"{HEAD}{odd},Tuesday,2026-08-20 09:05,,,,\n"}
    desk = a_desk(tmp_path, **files)
    kim, page = desk.people["coordinator"], at("sign_up", "Tuesday", odd)
    assert f'href="{page}"' in words(kim.get(PAGE))
    assert kim.get(page).status_code == HTTPStatus.OK
    assert send(kim, page, TOLD, team=odd).url == PAGE
    assert rows(desk).startswith(f"{HEAD}{odd},Thursday,2026-08-23 12:00")
