"""Coordinators invite by links that are for one address, wait in a list, and can be closed."""

import re
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final

import pytest
from django.core import mail
from django.core.cache import cache
from django.core.mail import EmailMessage
from django.test import Client
from pytest_django.fixtures import Settings

from cases.desk_season import DeskSeason, a_desk
from wholeball.site.invitations import digest_of, invite
from wholeball.store.models import Account, AuditRow, Invitation, Membership, Season

pytestmark = pytest.mark.django_db
HERE: Final = "/invitation/"
EMAIL: Final = "noor@league.invalid"
PASSWORD: Final = "a meadow in October"  # noqa: S105 - of accounts that live for one test


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    cache.clear()
    return a_desk(tmp_path)


@pytest.fixture
def coordinator(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def sent(season: Season, **said: str) -> dict[str, str]:
    form = {"email": EMAIL, "role": "captain", "team": "Ash", "person": ""}
    return {**form, "where": f"season-{season.pk}", **said}


def link(client: Client, season: Season, **said: str) -> str:
    """Return the address of a link that a coordinator makes."""
    answer = client.post(HERE, sent(season, **said))
    assert answer.status_code == 200, answer.context["form"].errors
    found = re.search(r"http://testserver(/invitation/[\w-]+/)", answer.content.decode())
    assert found is not None
    return found[1]


def joins(email: str, address: str) -> Client:
    """Return a browser in which a new account is made by a link."""
    client = Client()
    client.post(address)
    typed = {"email": email, "password1": PASSWORD, "password2": PASSWORD}
    client.last = client.post("/accounts/signup/", typed)  # type: ignore[attr-defined]
    return client


def test_a_link_says_for_whom_it_is_and_gives_the_role_to_that_address_alone(
    desk: DeskSeason, coordinator: Client
) -> None:
    address = link(coordinator, desk.season)
    shown = Client().get(address)
    assert f"<bdi>{EMAIL}</bdi></strong> alone, and works once." in shown.content.decode()
    assert shown.headers["Referrer-Policy"] == "same-origin"
    other = joins("thief@league.invalid", address)
    told = other.last.content.decode()  # type: ignore[attr-defined]
    assert f"The invitation is for {EMAIL}." in told
    assert not Account.objects.filter(email="thief@league.invalid").exists()
    joins(EMAIL.upper(), address)
    got = Membership.objects.get(account__email=EMAIL)
    assert (got.role, got.team, got.season) == ("captain", "Ash", desk.season)
    assert Client().get(address).status_code == 404


def test_an_account_of_another_address_is_refused_with_the_cure_and_the_link_stays(
    desk: DeskSeason, coordinator: Client
) -> None:
    address, official = link(coordinator, desk.season), desk.people["official"]
    before = Membership.objects.count()
    answer = official.post(address, follow=True)
    assert f"This link is for {EMAIL}" in answer.content.decode()
    assert Membership.objects.count() == before
    assert Client().get(address).status_code == 200


def test_a_link_without_an_address_says_that_whoever_has_it_can_use_it(
    desk: DeskSeason,
) -> None:
    until = datetime.now(UTC) + timedelta(days=1)
    token = invite(desk.season.organisation, "supervisor", until=until)
    page = Client().get(f"/invitation/{token}/").content.decode()
    assert "Whoever has the link can use it, once." in page


def test_open_links_are_listed_and_a_closed_one_opens_nothing(
    desk: DeskSeason, coordinator: Client
) -> None:
    address = link(coordinator, desk.season)
    page = coordinator.get(HERE).content.decode()
    assert f"<bdi>{EMAIL}</bdi>: captain of <bdi>Ash</bdi>" in page
    assert address not in page
    close = f"{HERE}{Invitation.objects.get().pk}/close/"
    closed = coordinator.post(close, follow=True).content.decode()
    assert "The link is closed" in closed
    assert "No link waits. Invite somebody below." in closed
    missing = Client().get(address)
    assert missing.status_code == Client().get("/invitation/never/").status_code == 404
    assert coordinator.post(close).status_code == 404


def test_who_invited_and_who_closed_is_noted_without_address_or_word(
    desk: DeskSeason, coordinator: Client
) -> None:
    address = link(coordinator, desk.season)
    made = Invitation.objects.get()
    coordinator.post(f"{HERE}{made.pk}/close/")
    what = f"autumn: invitation {made.pk} as captain, Ash"
    rows = AuditRow.objects.order_by("-number")[:2]
    assert [(one.did, one.what) for one in rows] == [("closed", what), ("invited", what)]
    assert {one.account for one in rows} == {
        Account.objects.get(email__startswith="coordinator")
    }
    kept = f"{list(AuditRow.objects.values())}{list(Invitation.objects.values())}"
    assert address.split("/")[2] not in kept
    assert digest_of(address.split("/")[2]) in kept


def test_nobody_but_a_coordinator_has_the_page_and_none_reaches_beyond_their_season(
    desk: DeskSeason, coordinator: Client
) -> None:
    for role in ("supervisor", "official", "scorekeeper", "captain", "player"):
        assert desk.people[role].get(HERE).status_code == 404
        assert desk.people[role].post(HERE, sent(desk.season)).status_code == 404
    assert Client().get(HERE).status_code == 302
    organisation = desk.season.organisation
    spring = Season.objects.create(organisation=organisation, slug="spring", name="Spring")
    for where in (f"season-{spring.pk}", f"organisation-{organisation.pk}", "season-0"):
        answer = coordinator.post(HERE, sent(desk.season, where=where, role="coordinator"))
        assert answer.status_code == 422
    until = datetime.now(UTC) + timedelta(days=1)
    invite(organisation, "coordinator", until=until)
    invite(organisation, "captain", until=until, season=spring, team="Ash")
    assert "No link waits." in coordinator.get(HERE).content.decode()
    for one in Invitation.objects.all():
        assert coordinator.post(f"{HERE}{one.pk}/close/").status_code == 404


@pytest.mark.parametrize(
    ("said", "field"),
    [
        ({"email": ""}, "email"),
        ({"email": "no address"}, "email"),
        ({"team": "Nobody"}, "team"),
        ({"team": ""}, "team"),
        ({"role": "official", "person": "Nobody"}, "person"),
        ({"role": "king"}, "role"),
        ({"role": ""}, "role"),
    ],
)
def test_what_the_season_does_not_know_is_told_beside_its_field_and_invites_nobody(
    desk: DeskSeason, coordinator: Client, said: dict[str, str], field: str
) -> None:
    answer = coordinator.post(HERE, sent(desk.season, **said))
    assert (answer.status_code, set(answer.context["form"].errors)) == (422, {field})
    assert Invitation.objects.count() == 0


def test_a_coordinator_of_all_seasons_invites_staff_to_all_and_a_captain_to_one_only(
    desk: DeskSeason, coordinator: Client
) -> None:
    Membership.objects.filter(role="coordinator").update(season=None)
    every = f"organisation-{desk.season.organisation.pk}"
    answer = coordinator.post(HERE, sent(desk.season, where=every))
    assert set(answer.context["form"].errors) == {"where"}
    link(coordinator, desk.season, where=every, role="supervisor", team="")
    made = Invitation.objects.get()
    assert (made.role, made.season, made.team) == ("supervisor", None, "")
    assert made.expires_at > datetime.now(UTC) + timedelta(days=13)


def test_a_link_is_mailed_where_mail_goes_out_and_that_is_asked_for(
    desk: DeskSeason, coordinator: Client, settings: Settings
) -> None:
    link(coordinator, desk.season, mails="on")
    assert "Mail the link" not in coordinator.get(HERE).content.decode()
    settings.SENDS_MAIL = True
    assert "Mail the link to that address" in coordinator.get(HERE).content.decode()
    link(coordinator, desk.season)
    assert mail.outbox == []
    address = link(coordinator, desk.season, mails="on")
    (sent_,) = mail.outbox
    assert (sent_.to, sent_.subject) == ([EMAIL], "Your invitation")
    assert f"http://testserver{address}\n" in sent_.body


def test_a_mail_that_does_not_go_out_is_told_and_the_link_is_shown_all_the_same(
    desk: DeskSeason, coordinator: Client, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(_: EmailMessage) -> int:
        raise ConnectionRefusedError(111, "Connection refused")

    settings.SENDS_MAIL = True
    monkeypatch.setattr(EmailMessage, "send", refused)
    answer = coordinator.post(HERE, sent(desk.season, mails="on")).content.decode()
    assert "ConnectionRefusedError: [Errno 111] Connection refused" in answer
    assert "The mail did not go out. Cure: send the link yourself." in answer
    assert re.search(r"http://testserver/invitation/[\w-]+/", answer) is not None
