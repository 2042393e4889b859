"""Coordinators invite the captains of all teams at once, by what a spreadsheet said of them."""

import re
from pathlib import Path
from typing import Final

import pytest
from django.core import mail
from django.core.cache import cache
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from pytest_django.fixtures import Settings

from cases.answers import words
from cases.desk_season import DeskSeason, a_desk, at
from wholeball.store.models import Invitation

pytestmark = pytest.mark.django_db
HERE: Final = "/invitation/captains/"
LIST: Final = (
    b"Team,Division,Captain,Captain e-mail\nash,one,Ida Brook,ida@league.invalid\n"
    b"Fir,one,Jo Reed,\nGorse,two,Kit Ames,kit@league.invalid\n"
)


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    cache.clear()
    return a_desk(tmp_path)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    client = desk.people["coordinator"]
    answer = client.post(at("take_teams"), {"file": SimpleUploadedFile("teams.csv", LIST)})
    assert answer.status_code == 302, words(answer)
    return client


def fields(page: str) -> dict[str, tuple[str, str]]:
    """Return what each team is asked by, and what is filled in."""
    found = re.findall(
        r"<label[^>]*><strong><bdi>([^<]*)</bdi>.*?</label>\s*(<input[^>]*>)", page
    )
    return {
        team: (
            re.findall(r'name="([^"]*)"', put)[0],
            "".join(re.findall(r'value="([^"]*)"', put)),
        )
        for team, put in found
    }


def test_addresses_of_a_spreadsheet_are_filled_in_and_no_link_is_made_by_looking(
    desk: DeskSeason, kim: Client
) -> None:
    page = words(kim.get(HERE))
    told = {team: value for team, (_, value) in fields(page).items()}
    assert (told["Gorse"], told["Fir"]) == ("kit@league.invalid", "")
    assert "Kit Ames" in page
    assert not Invitation.objects.exists()
    assert all(b"league.invalid" not in text for text in desk.texts().values())
    assert all(b"Kit Ames" not in text for text in desk.texts().values())


def test_each_line_with_an_address_becomes_a_link_for_the_captain_of_its_team(
    desk: DeskSeason, kim: Client
) -> None:
    asked = fields(words(kim.get(HERE)))
    sent = {asked["Gorse"][0]: "kit@league.invalid", asked["Fir"][0]: "jo@league.invalid"}
    page = words(kim.post(f"{HERE}?season={desk.season.pk}", sent))
    assert len(re.findall(r"http://testserver/invitation/[\w-]+/", page)) == 2
    made = Invitation.objects.order_by("team").values_list("team", "email", "role", "season")
    assert list(made) == [
        ("Fir", "jo@league.invalid", "captain", desk.season.pk),
        ("Gorse", "kit@league.invalid", "captain", desk.season.pk),
    ]
    assert {"Fir", "Gorse"}.isdisjoint(fields(page))
    assert "<strong><bdi>Gorse</bdi></strong>: <bdi>a link waits</bdi>" in page
    again = words(kim.get(HERE))
    assert "/invitation/" in again
    assert not re.findall(r"testserver/invitation/[\w-]{20,}/", again)


def test_one_address_that_is_none_makes_no_link_at_all_and_what_was_typed_stays(
    kim: Client,
) -> None:
    asked = fields(words(kim.get(HERE)))
    sent = {asked["Gorse"][0]: "kit@league.invalid", asked["Fir"][0]: "jo at league"}
    refused = kim.post(HERE, sent)
    assert refused.status_code == 422
    assert not Invitation.objects.exists()
    assert "jo at league" in words(refused)
    empty = kim.post(HERE, {})
    assert (empty.status_code, "There is no address yet." in words(empty)) == (422, True)


def test_links_are_mailed_where_mail_goes_out_and_that_is_asked_for(
    kim: Client, settings: Settings
) -> None:
    settings.SENDS_MAIL = True
    asked = fields(words(kim.get(HERE)))
    kim.post(HERE, {asked["Gorse"][0]: "kit@league.invalid", "mails": "on"})
    kim.post(HERE, {asked["Fir"][0]: "jo@league.invalid"})
    assert [one.to for one in mail.outbox] == [["kit@league.invalid"]]
    assert Invitation.objects.count() == 2


def test_a_season_that_is_not_ones_own_is_not_there(kim: Client) -> None:
    assert kim.get(f"{HERE}?season=0").status_code == 404


def test_whoever_invites_one_person_chooses_among_teams_and_officials(
    desk: DeskSeason, kim: Client
) -> None:
    page = words(kim.get("/invitation/"))
    assert 'list="teams-to-choose"' in page
    assert '<option value="Gorse"></option>' in page
    told = {"email": "a@league.invalid", "where": f"season-{desk.season.pk}"}
    for role, says in (
        ("captain", "A captain is of a team. Choose which."),
        ("official", "An official has a name in crews. Choose which."),
    ):
        refused = kim.post("/invitation/", {**told, "role": role})
        assert (refused.status_code, says in words(refused)) == (422, True)
