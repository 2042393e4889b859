"""Attacks on signing in get the outcome that the check data names, and no row is left out.

Each row is done to the site as a stranger's browser would do it.
"""

import gzip
from collections.abc import Callable
from typing import Final

import pytest
from django.core import mail
from django.core.cache import cache
from django.test import Client

from external.attacks import (
    AT_THE_DESK,
    FROM_OUTSIDE,
    OF_THE_MACHINE,
    SIGNING_IN,
    SUBJECTS,
    WHILE_WRITING,
    Outcome,
    all_rows,
    expected,
    number_in,
    rows_about,
    subjects_of,
    text_of,
)
from external.cases import Case, by_id
from wholeball.store.models import Account

PASSWORD: Final = "a meadow in October"  # noqa: S105 - of accounts that live for one test
EMAIL: Final = "ines@league.invalid"
LOGIN: Final = "/accounts/login/"

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _one_account() -> None:
    cache.clear()
    Account.objects.create_user(EMAIL, PASSWORD)


@pytest.mark.parametrize("row", by_id(all_rows()))
def test_every_row_of_pages_and_machines_is_done_by_one_of_the_files(row: Case) -> None:
    done = SIGNING_IN | AT_THE_DESK | FROM_OUTSIDE | OF_THE_MACHINE | WHILE_WRITING
    assert done == set(SUBJECTS)
    (subject,) = subjects_of(row)
    assert subject in done


@pytest.mark.parametrize("row", by_id(rows_about(SIGNING_IN)))
def test_signing_in_gives_the_outcome_the_row_names(row: Case, client: Client) -> None:
    (subject,) = subjects_of(row)
    assert RECIPES[subject](client, text_of(row)) == expected(row)


def typed(client: Client, password: str = PASSWORD, **more: str) -> int:
    """Type a password, and return the status of the answer."""
    return client.post(LOGIN, {"login": EMAIL, "password": password}, **more).status_code  # type: ignore[arg-type]


def led_off_the_site(client: Client, said: str) -> Outcome:
    away = said.removeprefix("next=")
    sent = {"login": EMAIL, "password": PASSWORD, "next": away}
    answer = client.post(f"{LOGIN}?next={away}", sent)
    assert answer.status_code == 302
    return Outcome("reject", "redirect" if answer.headers["Location"] == "/" else "led off")


def mail_under_another_host(client: Client, said: str) -> Outcome:
    host = said.removeprefix("Host:").split()[0]
    reset = "/accounts/password/reset/"
    answer = client.post(reset, {"email": EMAIL}, headers={"host": host})
    assert mail.outbox == []
    return Outcome("reject", str(answer.status_code))


def wrong_passwords(client: Client, said: str) -> Outcome:
    guesses = range(number_in(said))
    told = [typed(client, f"guess {number}", REMOTE_ADDR="192.0.2.9") for number in guesses]
    assert typed(Client(), REMOTE_ADDR="198.51.100.7") == 302
    return Outcome("reject", str(told[-1]))


def session_fixed_before(client: Client, _: str) -> Outcome:
    session = client.session
    session["planted"] = "yes"
    session.save()
    before = session.session_key
    assert typed(client) == 302
    after = client.session.session_key
    return Outcome("reject", "rotated" if after != before else "kept")


def packed_body(client: Client, said: str) -> Outcome:
    body = gzip.compress(b"login=" + b"x" * 10_000_000)
    packing = said.removeprefix("Content-Encoding:").split()[0]
    kind = "application/x-www-form-urlencoded"
    answer = client.post(LOGIN, body, content_type=kind, headers={"content-encoding": packing})
    return Outcome("reject", str(answer.status_code))


def without_a_token(_: Client, __: str) -> Outcome:
    strict = Client(enforce_csrf_checks=True)
    answer = strict.post(LOGIN, {"login": EMAIL, "password": PASSWORD})
    assert "_auth_user_id" not in strict.session
    return Outcome("reject", str(answer.status_code))


RECIPES: Final[dict[str, Callable[[Client, str], Outcome]]] = {
    "no token": without_a_token,
    "led away": led_off_the_site,
    "another host": mail_under_another_host,
    "guesses": wrong_passwords,
    "a planted session": session_fixed_before,
    "packed": packed_body,
}
