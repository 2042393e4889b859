"""Officials who left are taken out at the desk, unless a crew names them; their sign-in is told."""

from datetime import UTC, datetime, timedelta
from http import HTTPStatus
from pathlib import Path

import pytest
from django.test import Client

from cases.answers import said, words
from cases.desk_officials import LEFT, SOON, drop, invited, officials_desk, version
from cases.desk_season import OFFICIALS, DeskSeason, at, member
from wholeball.kernel.days import day_of_season
from wholeball.store.models import Change, Membership
from wholeball.store.official_access import SignIns, sign_ins_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return officials_desk(tmp_path)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def test_who_is_on_a_crew_to_come_is_not_taken_out_and_is_led_to_it(
    desk: DeskSeason, kim: Client
) -> None:
    says = f"Ada Quill is on the crew of game A3 on {day_of_season(SOON)}."
    page = words(kim.get(at("official", "Ada Quill")))
    assert says in page
    assert "Give it to somebody else first." in page
    assert f'href="{at("crews", SOON)}"' in page
    assert at("drop_official", "Ada Quill") not in page
    before = desk.texts()
    answer = drop(kim, "Ada Quill")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert answer.context["refused"].says == says
    assert answer.context["refused"].fix == (
        "Nothing was changed. Give it to somebody else first."
    )
    assert f'href="{at("crews", SOON)}"' in words(answer)
    assert desk.texts() == before


def test_who_worked_a_game_stays_listed_and_the_page_says_so(
    desk: DeskSeason, kim: Client
) -> None:
    before = desk.texts()
    answer = drop(kim, "Bo Tarn")
    assert answer.context["refused"].says == (
        "Bo Tarn was on the crew of game A1 on Tuesday 15 September."
    )
    assert "Whoever worked a game stays listed" in words(answer)
    assert "Whoever worked a game stays listed" in words(kim.get(at("official", "Bo Tarn")))
    assert desk.texts() == before


def test_whom_no_crew_names_is_taken_out_and_comes_back_by_changes(
    desk: DeskSeason, kim: Client
) -> None:
    before = desk.texts()
    assert f'action="{at("drop_official", LEFT)}"' in words(kim.get(at("official", LEFT)))
    answer = drop(kim, LEFT)
    assert said(answer) == f"{LEFT} is taken out. To undo it: Season, Changes."
    assert desk.texts()["officials.csv"].decode() == OFFICIALS
    again = drop(kim, LEFT)
    assert again.context["refused"].says == "This official is not there any more."
    change = Change.objects.filter(name="officials.csv").latest("version")
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert desk.texts() == before


def test_who_takes_out_what_another_listed_on_meanwhile_is_told(
    desk: DeskSeason, kim: Client
) -> None:
    old = version()
    kim.post(at("officials_list"), {"names": "Fay Orrin"})
    answer = drop(kim, LEFT, seen=old)
    assert "It was changed while you worked on it." in answer.context["refused"].says
    assert LEFT in desk.texts()["officials.csv"].decode()
    assert drop(kim, LEFT, seen=answer.context["version"]).status_code == HTTPStatus.FOUND


def test_what_becomes_of_a_sign_in_is_said_before_and_after(
    desk: DeskSeason, kim: Client
) -> None:
    el = member(desk.season, "official", person=LEFT)
    page = words(kim.get(at("official", LEFT)))
    assert "is ended under People and roles." in page
    assert "The sign-in stays, and opens no game then." in page
    answer = drop(kim, LEFT)
    assert said(answer) == (
        f"{LEFT} is taken out. The sign-in stays, and opens no game. To undo it: Season, Changes."
    )
    assert el.get(at("standings")).status_code == HTTPStatus.OK
    assert el.get(at("game", "A3")).status_code == HTTPStatus.NOT_FOUND


def test_a_sign_in_is_known_while_it_can_be_used(desk: DeskSeason) -> None:
    """Whose account is closed, and links that were used or are too old, let nobody in."""
    season, now = desk.season, datetime.now(UTC)
    member(season, "official", person="Di Lund")
    account = Membership.objects.get(person="Di Lund").account
    invited(desk, "Cy Imbray", used_at=now)
    invited(desk, "Cy Imbray", expires_at=now)
    invited(desk, "Cy Imbray", role="captain", team="Ash")
    known = sign_ins_of(season, at=now)
    assert (known["Di Lund"], "Cy Imbray" in known) == (
        SignIns(addresses=["official.di.lund@harrowfen.example"]),
        False,
    )
    account.is_active = False
    account.save()
    invited(desk, "Cy Imbray", expires_at=now + timedelta(seconds=1))
    known = sign_ins_of(season, at=now)
    assert ("Di Lund" in known, known["Cy Imbray"]) == (
        False,
        SignIns(invited=["cy@harrowfen.example"]),
    )
