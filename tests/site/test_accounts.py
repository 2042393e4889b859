"""Tests that people sign in and out, by invitation only, and that nobody guesses passwords."""

from http import HTTPStatus

import pytest
from django.contrib.sessions.models import Session
from django.core import mail
from django.core.cache import cache
from django.test import Client

from cases.stored import a_season
from wholeball.store.models import Account, Membership

PASSWORD = "a meadow in October"  # noqa: S105 - of accounts that live for one test
LOGIN = "/accounts/login/"

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _nobody_guessed_before() -> None:
    cache.clear()


@pytest.fixture
def account() -> Account:
    return Account.objects.create_user("ines@league.invalid", PASSWORD, name="Ines Farrowby")


def signed_in(client: Client, password: str = PASSWORD, **more: str) -> int:
    """Type a password, and return the status of the answer."""
    typed = {"login": "ines@league.invalid", "password": password}
    return client.post(LOGIN, typed, **more).status_code  # type: ignore[arg-type]


def test_the_right_password_of_somebody_without_a_role_leads_to_the_noticeboard(
    client: Client, account: Account
) -> None:
    answer = client.post(LOGIN, {"login": account.email, "password": PASSWORD})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/")
    assert client.session["_auth_user_id"] == str(account.pk)


@pytest.mark.parametrize(
    ("roles", "page"),
    [
        (("coordinator",), "/desk/"),
        (("supervisor",), "/desk/"),
        (("official",), "/desk/"),
        (("scorekeeper",), "/desk/"),
        (("captain",), "/me/"),
        (("player",), "/me/"),
        (("player", "official"), "/desk/"),
    ],
)
def test_everybody_who_signs_in_is_led_to_what_is_theirs(
    client: Client, account: Account, roles: tuple[str, ...], page: str
) -> None:
    season = a_season()
    for role in roles:
        Membership.objects.create(
            organisation=season.organisation,
            account=account,
            role=role,
            season=season,
            team="Ash" if role in ("captain", "player") else "",
            person="k-ines" if role in ("player", "official") else "",
        )
    typed = {"login": account.email, "password": PASSWORD}
    assert client.post(LOGIN, typed).headers["Location"] == page


@pytest.mark.parametrize(("seasons", "page"), [(0, "/start/"), (1, "/desk/")])
def test_who_runs_an_organisation_is_led_to_begin_its_first_season(
    client: Client, account: Account, seasons: int, page: str
) -> None:
    season = a_season()
    Membership.objects.create(
        organisation=season.organisation, account=account, role="coordinator"
    )
    if not seasons:
        season.delete()
    typed = {"login": account.email, "password": PASSWORD}
    assert client.post(LOGIN, typed).headers["Location"] == page


def test_who_asked_for_a_page_of_the_desk_is_led_to_it_after_signing_in(
    client: Client, account: Account
) -> None:
    season = a_season()
    Membership.objects.create(
        organisation=season.organisation, account=account, role="coordinator"
    )
    asked = "/desk/harrow-fen/autumn/results/"
    asks = client.get(asked).headers["Location"]
    assert asks == f"{LOGIN}?next={asked}"
    typed = {"login": account.email, "password": PASSWORD, "next": asked}
    assert client.post(asks, typed).headers["Location"] == asked


def test_a_wrong_password_keeps_what_was_typed_and_signs_nobody_in(
    client: Client, account: Account
) -> None:
    answer = client.post(LOGIN, {"login": account.email, "password": "something else"})
    assert answer.status_code == HTTPStatus.OK
    assert b'value="ines@league.invalid"' in answer.content
    assert b"something else" not in answer.content
    assert "_auth_user_id" not in client.session


def test_signing_out_by_a_link_alone_changes_nothing(client: Client, account: Account) -> None:
    client.force_login(account)
    page = client.get("/accounts/logout/")
    assert page.status_code == HTTPStatus.OK
    assert client.session["_auth_user_id"] == str(account.pk)
    client.post("/accounts/logout/")
    assert "_auth_user_id" not in client.session


def test_without_an_invitation_no_account_can_be_made(client: Client) -> None:
    shown = client.get("/accounts/signup/")
    assert b"Accounts are made by invitation" in shown.content
    sent = client.post(
        "/accounts/signup/",
        {"email": "x@league.invalid", "password1": PASSWORD, "password2": PASSWORD},
    )
    assert b"Accounts are made by invitation" in sent.content
    assert not Account.objects.exists()


@pytest.mark.usefixtures("account")
def test_the_fifth_wrong_password_is_read_and_the_sixth_is_not(client: Client) -> None:
    told = [signed_in(client, f"guess {number}") for number in range(1, 7)]
    assert told == [HTTPStatus.OK] * 5 + [HTTPStatus.TOO_MANY_REQUESTS]
    assert signed_in(client) == HTTPStatus.TOO_MANY_REQUESTS


@pytest.mark.usefixtures("account")
def test_who_signs_in_from_elsewhere_is_not_slowed_by_a_strangers_guesses(
    client: Client,
) -> None:
    for number in range(10):
        signed_in(client, f"guess {number}", REMOTE_ADDR="192.0.2.9")
    assert signed_in(Client(), REMOTE_ADDR="198.51.100.7") == HTTPStatus.FOUND


@pytest.mark.usefixtures("account")
def test_the_session_that_was_there_before_signing_in_is_gone_after(client: Client) -> None:
    session = client.session
    session["planted"] = "yes"
    session.save()
    before = session.session_key
    signed_in(client)
    assert client.session.session_key != before
    assert not Session.objects.filter(session_key=before).exists()


@pytest.mark.parametrize(
    "planted", ["//evil.invalid/", "https://evil.invalid/", "javascript:x"]
)
def test_nobody_is_led_off_the_site_after_signing_in(
    client: Client, account: Account, planted: str
) -> None:
    typed = {"login": account.email, "password": PASSWORD, "next": planted}
    assert client.post(f"{LOGIN}?next={planted}", typed).headers["Location"] == "/"


def test_a_reset_asked_for_under_another_host_sends_no_mail(
    client: Client, account: Account
) -> None:
    answer = client.post(
        "/accounts/password/reset/",
        {"email": account.email},
        headers={"host": "evil.invalid"},
    )
    assert answer.status_code == HTTPStatus.BAD_REQUEST
    assert mail.outbox == []
    client.post("/accounts/password/reset/", {"email": account.email})
    assert [sent.to for sent in mail.outbox] == [[account.email]]


@pytest.mark.usefixtures("account")
@pytest.mark.parametrize(
    "path",
    [
        "/account/",
        "/accounts/password/change/",
        "/accounts/2fa/",
        "/accounts/2fa/totp/activate/",
        "/accounts/2fa/webauthn/add/",
        "/accounts/sessions/",
        "/accounts/email/",
        "/accounts/logout/",
    ],
)
def test_every_page_of_the_account_is_drawn_in_the_sites_look(
    client: Client, path: str
) -> None:
    signed_in(client)
    page = client.get(path, follow=True)
    assert page.status_code == HTTPStatus.OK
    text = page.content.decode()
    assert text.count("<h1>") == 1
    assert "site/site.css" in text
    assert " style=" not in text
    assert "<style" not in text


@pytest.mark.parametrize(
    ("email", "subject", "begins"),
    [
        (
            "ines@league.invalid",
            "Wholeball: A link to set a new password",
            "Somebody asked for a new password for your account. If it was you, open this link;",
        ),
        (
            "nobody@league.invalid",
            "Wholeball: No account has this address",
            "Somebody asked for a new password for nobody@league.invalid, and no account has",
        ),
    ],
)
@pytest.mark.usefixtures("account")
def test_who_asks_for_a_new_password_reads_what_to_do(
    client: Client, email: str, subject: str, begins: str
) -> None:
    client.post("/accounts/password/reset/", {"email": email})
    (sent,) = mail.outbox
    assert (sent.subject, sent.to) == (subject, [email])
    assert sent.body.startswith(begins)
    assert sent.body.endswith("\n\ntestserver")
    assert ("/accounts/password/reset/key/" in sent.body) == (email == "ines@league.invalid")
