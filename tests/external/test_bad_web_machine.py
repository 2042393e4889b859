"""Faults of a machine at its start get the outcome that the check data names."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path
from typing import Final

import pytest
from django.db import connection
from django.test import Client

from cases.read_only import read_only
from external.attacks import OF_THE_MACHINE, Outcome, expected, rows_about, subjects_of
from external.cases import Case, by_id
from wholeball.kernel.faults import WholeballError
from wholeball.site.backup_file import Head, read_head, write_file
from wholeball.site.checks import (
    clock_findings,
    database_findings,
    secret_findings,
    share_findings,
)
from wholeball.site.environment import environment
from wholeball.site.restores import restore_backup
from wholeball.store.models import Account

NOW: Final = datetime(2026, 11, 26, 12, tzinfo=UTC)
HEAD: Final = Head(program="0.1.0", made="2026-11-26", kind="rows", schema={}, results={})

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("row", by_id(rows_about(OF_THE_MACHINE)))
def test_the_machine_gives_the_outcome_the_row_names(row: Case, tmp_path: Path) -> None:
    (subject,) = subjects_of(row)
    assert RECIPES[subject](tmp_path) == expected(row)


def database_that_cannot_be_written(_: Path) -> Outcome:
    """Source of the share: SQLite, "Write-Ahead Logging", 2; the pragma is SQLite's own too."""
    (shared,) = share_findings(Path("/srv/data"), "files:/data /srv nfs4 rw 0 0\n")
    assert (shared.level, shared.code) == ("refuse", "storage")
    if connection.vendor != "sqlite":
        return Outcome("reject", shared.code)
    with read_only():
        (found,) = database_findings(connection)
    return Outcome("reject" if found.level == "refuse" else found.level, found.code)


def backup_of_a_newer_version(folder: Path) -> Outcome:
    Account.objects.create_user("ines@league.invalid")
    newer = {"store": ["9999_x"]}
    head = Head(program="9.0", made="2030-01-01", kind="rows", schema=newer, results={})
    write_file(folder / "newer", head, BytesIO(b""))
    with pytest.raises(WholeballError) as refused:
        restore_backup(folder / "newer")
    assert Account.objects.count() == 1
    return Outcome("reject", refused.value.code)


def backup_with_a_flipped_byte(folder: Path) -> Outcome:
    file = folder / "one"
    write_file(file, HEAD, BytesIO(b"rows"))
    whole = bytearray(file.read_bytes())
    whole[len(whole) // 2] ^= 1
    file.write_bytes(whole)
    with pytest.raises(WholeballError, match=str(file)) as refused:
        read_head(file)
    return Outcome("reject", refused.value.code)


def clock_a_day_wrong(_: Path) -> Outcome:
    client = Client()
    client.force_login(Account.objects.create_user("ines@league.invalid"))
    (found,) = clock_findings(NOW + timedelta(days=1), NOW)
    assert client.get("/account/").status_code == 200
    return Outcome(found.level, found.code)


def no_secret(folder: Path) -> Outcome:
    told = {"WHOLEBALL_DATA": str(folder), "WHOLEBALL_HTTPS": "1"}
    default = {**told, "WHOLEBALL_SECRET_KEY": "django-insecure-" + "ab12cd34" * 8}
    (missing,), (known,) = (secret_findings(environment(one)) for one in (told, default))
    assert (missing.level, known.level, known.code) == ("refuse", "refuse", missing.code)
    return Outcome("reject", missing.code)


RECIPES: Final[dict[str, Callable[[Path], Outcome]]] = {
    "no disk to write": database_that_cannot_be_written,
    "a newer backup": backup_of_a_newer_version,
    "a flipped byte": backup_with_a_flipped_byte,
    "a wrong clock": clock_a_day_wrong,
    "no secret": no_secret,
}
