"""Attacks on signing in, and faults of a machine, get the outcome that the check data names.

Each row is done to the site as a stranger, a browser or a machine would do it. The rows that
wait for other pages are skipped with the reason.
"""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path
from typing import Final, NamedTuple

import pytest
from django.core import mail
from django.core.cache import cache
from django.db import connection
from django.test import Client

from external.cases import Case, by_id, read
from wholeball.kernel.faults import WholeballError
from wholeball.site.backup_file import Head, read_head, write_file
from wholeball.site.checks import clock_findings, database_findings, secret_findings
from wholeball.site.environment import environment
from wholeball.site.restores import restore_backup
from wholeball.store.models import Account

ROWS: Final[list[Case]] = [
    row for row in read("bad_inputs.jsonl") if row["area"] in ("web", "ops")
]
PASSWORD: Final = "a meadow in October"  # noqa: S105 - of accounts that live for one test
EMAIL: Final = "ines@league.invalid"
LOGIN: Final = "/accounts/login/"
NOW: Final = datetime(2026, 11, 26, 12, tzinfo=UTC)
HEAD: Final = Head(program="0.1.0", made="2026-11-26", kind="rows", schema={}, results={})


class Outcome(NamedTuple):
    outcome: str
    code: str


pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _one_account() -> None:
    cache.clear()
    Account.objects.create_user(EMAIL, PASSWORD)


@pytest.mark.parametrize("row", by_id(ROWS))
def test_the_site_gives_the_outcome_the_row_names(
    row: Case, client: Client, tmp_path: Path
) -> None:
    if row["id"] in ELSEWHERE:
        pytest.skip(ELSEWHERE[row["id"]])
    if row["id"] not in RECIPES:
        pytest.fail(f"{row['id']}: no recipe for {row['input']['text']!r}; write one")
    expected = Outcome(row["expected"]["outcome"], row["expected"]["code"])
    assert RECIPES[row["id"]](client, tmp_path) == expected


def typed(client: Client, password: str = PASSWORD, **more: str) -> int:
    """Type a password, and return the status of the answer."""
    return client.post(LOGIN, {"login": EMAIL, "password": password}, **more).status_code  # type: ignore[arg-type]


def led_off_the_site(client: Client, _: Path) -> Outcome:
    answer = client.post(
        f"{LOGIN}?next=//evil.example/",
        {"login": EMAIL, "password": PASSWORD, "next": "//evil.example/"},
    )
    assert answer.status_code == 302
    return Outcome("reject", "redirect" if answer.headers["Location"] == "/" else "led off")


def mail_under_another_host(client: Client, _: Path) -> Outcome:
    answer = client.post(
        "/accounts/password/reset/", {"email": EMAIL}, headers={"host": "evil.example"}
    )
    assert mail.outbox == []
    return Outcome("reject", str(answer.status_code))


def ten_wrong_passwords(client: Client, _: Path) -> Outcome:
    told = [typed(client, f"guess {number}", REMOTE_ADDR="192.0.2.9") for number in range(10)]
    assert typed(Client(), REMOTE_ADDR="198.51.100.7") == 302
    return Outcome("reject", str(told[-1]))


def session_fixed_before(client: Client, _: Path) -> Outcome:
    session = client.session
    session["planted"] = "yes"
    session.save()
    before = session.session_key
    assert typed(client) == 302
    after = client.session.session_key
    return Outcome("reject", "rotated" if after != before else "kept")


def packed_body(client: Client, _: Path) -> Outcome:
    answer = client.post(LOGIN, {}, headers={"content-encoding": "gzip"})
    return Outcome("reject", str(answer.status_code))


def without_a_token(_: Client, __: Path) -> Outcome:
    answer = Client(enforce_csrf_checks=True).post(
        LOGIN, {"login": EMAIL, "password": PASSWORD}
    )
    return Outcome("reject", str(answer.status_code))


def database_that_is_read_only(_: Client, __: Path) -> Outcome:
    if connection.vendor != "sqlite":
        pytest.skip("the pragma that forbids writing is SQLite's own")
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA query_only = ON")
        try:
            (found,) = database_findings(connection)
        finally:
            cursor.execute("PRAGMA query_only = OFF")
    return Outcome("reject" if found.level == "refuse" else found.level, found.code)


def backup_of_a_newer_version(_: Client, folder: Path) -> Outcome:
    head = Head(
        program="9.0", made="2030-01-01", kind="rows", schema={"store": ["9999_x"]}, results={}
    )
    write_file(folder / "newer", head, BytesIO(b""))
    with pytest.raises(WholeballError) as refused:
        restore_backup(folder / "newer")
    assert Account.objects.count() == 1
    return Outcome("reject", refused.value.code)


def backup_with_a_flipped_byte(_: Client, folder: Path) -> Outcome:
    file = folder / "one"
    write_file(file, HEAD, BytesIO(b"rows"))
    whole = bytearray(file.read_bytes())
    whole[len(whole) // 2] ^= 1
    file.write_bytes(whole)
    with pytest.raises(WholeballError, match=str(file)) as refused:
        read_head(file)
    return Outcome("reject", refused.value.code)


def clock_a_day_wrong(_: Client, __: Path) -> Outcome:
    (found,) = clock_findings(NOW + timedelta(days=1), NOW)
    return Outcome(found.level, found.code)


def secret_missing(_: Client, folder: Path) -> Outcome:
    here = environment({"WHOLEBALL_DATA": str(folder), "WHOLEBALL_HTTPS": "1"})
    (found,) = secret_findings(here)
    return Outcome("reject" if found.level == "refuse" else found.level, found.code)


RECIPES: Final[dict[str, Callable[[Client, Path], Outcome]]] = {
    "WEB-001": without_a_token,
    "WEB-006": led_off_the_site,
    "WEB-007": mail_under_another_host,
    "WEB-010": ten_wrong_passwords,
    "WEB-011": session_fixed_before,
    "WEB-012": packed_body,
    "OPS-002": database_that_is_read_only,
    "OPS-004": backup_of_a_newer_version,
    "OPS-005": backup_with_a_flipped_byte,
    "OPS-006": clock_a_day_wrong,
    "OPS-007": secret_missing,
}
ROOMS: Final = "waits for a recipe over the pages of the rooms"
FIELD: Final = "waits for the pages that send events from the field"
ELSEWHERE: Final = {
    "WEB-002": ROOMS,
    "WEB-003": "waits for pages of observations",
    "WEB-004": ROOMS,
    "WEB-005": ROOMS,
    "WEB-008": "no field of the site takes the address of a picture",
    "WEB-009": "held by tests/site/test_noticeboard_feeds.py",
    "WEB-013": FIELD,
    "WEB-014": FIELD,
    "WEB-015": FIELD,
    "WEB-016": ROOMS,
    "WEB-017": "no field of the site takes a picture",
    "WEB-018": ROOMS,
    "WEB-019": "waits for the gate, which has the shared tablet",
    "OPS-001": FIELD,
    "OPS-003": FIELD,
}
