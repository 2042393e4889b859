"""Tests that a link lets somebody in once, and what staff are asked for."""

from datetime import UTC, datetime, timedelta
from http import HTTPStatus
from typing import Final

import pytest
from django.core.cache import cache
from django.test import Client

from wholeball.kernel.faults import WholeballError
from wholeball.site import staff
from wholeball.site.invitations import accept, digest_of, first_link, invite, open_invitation
from wholeball.store.models import Account, Invitation, Membership, Organisation

NOW: Final = datetime.now(UTC)
DAY: Final = timedelta(days=1)
TYPED: Final = {
    "email": "ines@league.invalid",
    "password1": "a meadow in October",
    "password2": "a meadow in October",
}

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _nobody_tried_before() -> None:
    cache.clear()


@pytest.fixture
def league() -> Organisation:
    return Organisation.objects.create(name="Meadow leagues", slug="meadow")


def roles_of(account: Account) -> list[tuple[str, str]]:
    rows = Membership.objects.filter(account=account)
    return list(rows.values_list("organisation__slug", "role"))


def test_a_new_site_has_one_link_and_a_later_start_makes_the_earlier_one_useless() -> None:
    first = first_link(NOW)
    second = first_link(NOW)
    assert first is not None
    assert second is not None
    assert open_invitation(digest_of(first), NOW) is None
    assert open_invitation(digest_of(second), NOW) is not None
    account = Account.objects.create_user("ines@league.invalid")
    accept(digest_of(second), account, NOW)
    assert roles_of(account) == [("league", "coordinator")]
    assert first_link(NOW) is None


def test_no_word_of_a_link_is_kept(league: Organisation) -> None:
    token = invite(league, "supervisor", until=NOW + DAY)
    (row,) = Invitation.objects.values()
    assert token not in str(row)


def test_a_link_works_until_its_last_moment_and_then_no_longer(league: Organisation) -> None:
    digest = digest_of(invite(league, "supervisor", until=NOW + DAY))
    assert open_invitation(digest, NOW + DAY - timedelta(microseconds=1)) is not None
    assert open_invitation(digest, NOW + DAY) is None


def test_a_link_that_was_used_gives_nobody_else_a_role(league: Organisation) -> None:
    digest = digest_of(invite(league, "supervisor", until=NOW + DAY))
    first, second = (Account.objects.create_user(f"{one}@league.invalid") for one in "ab")
    accept(digest, first, NOW)
    with pytest.raises(WholeballError, match="used already") as refused:
        accept(digest, second, NOW)
    assert refused.value.code == "invitation"
    assert (roles_of(first), roles_of(second)) == ([("meadow", "supervisor")], [])


def test_looking_at_a_link_changes_nothing_and_taking_it_makes_an_account(
    client: Client, league: Organisation
) -> None:
    token = invite(league, "supervisor", until=NOW + DAY, email="INES@league.invalid")
    shown = client.get(f"/invitation/{token}/")
    assert b"as supervisor" in shown.content
    assert "invitation" not in client.session
    assert client.post(f"/invitation/{token}/").headers["Location"] == "/accounts/signup/"
    made = client.post("/accounts/signup/", TYPED)
    assert (made.status_code, made.headers["Location"]) == (HTTPStatus.FOUND, "/desk/")
    account = Account.objects.get()
    assert roles_of(account) == [("meadow", "supervisor")]
    assert client.session["_auth_user_id"] == str(account.pk)
    assert client.get(f"/invitation/{token}/").status_code == HTTPStatus.NOT_FOUND


def test_the_first_coordinator_is_led_to_begin_a_season(client: Client) -> None:
    client.post(f"/invitation/{first_link(NOW)}/")
    made = client.post("/accounts/signup/", TYPED)
    assert made.headers["Location"] == "/start/"
    assert client.get("/start/").status_code == HTTPStatus.OK


def test_somebody_with_an_account_joins_with_it_and_gets_a_new_session_id(
    client: Client, league: Organisation
) -> None:
    account = Account.objects.create_user("ines@league.invalid")
    client.force_login(account)
    before = client.session.session_key
    client.post(f"/invitation/{invite(league, 'scorekeeper', until=NOW + DAY)}/")
    assert roles_of(account) == [("meadow", "scorekeeper")]
    assert client.session.session_key != before


def test_staff_are_asked_once_a_session_for_a_second_factor(
    client: Client, league: Organisation
) -> None:
    account = Account.objects.create_user("ines@league.invalid")
    Membership.objects.create(organisation=league, account=account, role="coordinator")
    client.force_login(account)
    asks = staff.ASKS.encode()
    assert asks in client.get("/start/").content
    assert asks not in client.get("/start/").content


def test_staff_of_a_site_on_the_network_get_no_further_without_a_second_factor(
    client: Client, league: Organisation, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("WHOLEBALL_HTTPS", "1")
    account = Account.objects.create_user("ines@league.invalid")
    client.force_login(account)
    assert client.get("/start/").status_code == HTTPStatus.NOT_FOUND
    Membership.objects.create(organisation=league, account=account, role="coordinator")
    assert client.get("/start/").headers["Location"] == "/accounts/2fa/"
    assert client.get("/account/").status_code == HTTPStatus.OK


def test_a_session_of_staff_ends_after_thirty_idle_minutes_and_others_do_not(
    client: Client, league: Organisation
) -> None:
    account = Account.objects.create_user("ines@league.invalid")
    client.force_login(account)
    client.get("/account/")
    assert client.session.get_expiry_age() > 1800
    Membership.objects.create(organisation=league, account=account, role="coordinator")
    client.get("/account/")
    assert client.session.get_expiry_age() == 1800
