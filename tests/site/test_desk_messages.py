"""What people are told by mail and what by hand is counted apart, and the latter copied at once."""

import pytest
from django.test import Client
from pytest_django.fixtures import Settings

from cases.board_season import tonight
from cases.desk_officials import version
from cases.desk_season import at, member
from wholeball.desk.tasks import send_mail
from wholeball.store.models import Membership, Occasion, Season

pytestmark = pytest.mark.django_db
OFF = {
    "night": f"{tonight().date()}",
    "place": "site:North Lea",
    "state": "off",
    "next_word": "",
    "says": "Standing water on the pitch.",
}


@pytest.fixture
def season(season: Season) -> Season:
    for team in ("Ash", "Birch"):
        member(season, "captain", team=team, person=team)
    member(season, "official", person="Ada Quill")
    return season


@pytest.fixture(autouse=True)
def _mail_goes_out(settings: Settings) -> None:
    settings.SENDS_MAIL = True


def call_off(client: Client) -> Occasion:
    told = {**OFF, "version": version(), "sure": "yes"}
    assert client.post(at("call_off"), told).status_code == 302
    occasion = Occasion.objects.get()
    send_mail.func(occasion.pk)
    return occasion


def test_what_went_by_mail_and_what_is_told_by_hand_is_counted_apart(
    kim: Client,
) -> None:
    Membership.objects.filter(team="Ash", role="captain").delete()
    occasion = call_off(kim)
    page = kim.get(at("message", occasion.pk))
    assert page.context["tally"].says == "2 by mail, 1 to tell yourself"
    assert "<strong>2 by mail, 1 to tell yourself.</strong>" in page.content.decode()
    assert "; 2 by mail, 1 to tell yourself." in kim.get(at("messages")).content.decode()
    page = kim.get(at("take_back", occasion.pk))
    assert "is told of the correction: 2 by mail, 1 by you." in page.content.decode()
    assert ">Take it back and send 2 corrections</button>" in page.content.decode()


def test_where_no_mail_goes_out_all_is_told_by_hand(kim: Client, settings: Settings) -> None:
    settings.SENDS_MAIL = False
    page = kim.post(at("call_off"), OFF).content.decode()
    assert ">Say it</button>" in page
    assert "3 are yours to tell." in page
    assert "by mail</span>" not in page
    occasion = call_off(kim)
    page = kim.get(at("message", occasion.pk)).content.decode()
    assert "<strong>3 to tell yourself.</strong>" in page
    assert "sent</span>" not in page
    assert "; 3 to tell yourself." in kim.get(at("messages")).content.decode()


def test_the_messages_without_an_address_are_copied_as_one_text(
    kim: Client,
) -> None:
    Membership.objects.filter(team__in=("Ash", "Birch"), role="captain").delete()
    occasion = call_off(kim)
    page = kim.get(at("message", occasion.pk))
    parts = page.context["to_copy"].split("\n\n\n")
    off = "Game 1, Ash v Birch, 19:00 on North 1, is off."
    assert [one.splitlines()[0] for one in parts] == ["Captain of Ash", "Captain of Birch"]
    assert all(off in one for one in parts)
    assert "readonly" in page.content.decode()
    assert "Ada Quill" not in page.context["to_copy"]


def test_no_text_is_to_be_copied_where_all_went_by_mail(kim: Client) -> None:
    assert kim.get(at("message", call_off(kim).pk)).context["to_copy"] == ""
