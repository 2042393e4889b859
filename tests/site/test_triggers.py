"""What is only ever added stays as it is: the database itself refuses, however it was migrated.

Source of the way round by REPLACE: SQLite's documentation, "ON CONFLICT": rows that it deletes
fire no trigger unless recursive triggers are on.
"""

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.management import call_command
from django.db import DatabaseError, connection, transaction

from cases.served_site import environment_of
from cases.stored import NOW, a_season
from wholeball.site.checks import trigger_findings
from wholeball.store import audit, triggers
from wholeball.store.models import AuditRow, LogEntry

REFUSED = "never changed or taken out"


def a_migrated_file(folder: Path) -> Path:
    """Return a database that Django's own command migrated, and nothing else of the site."""
    subprocess.run(
        [sys.executable, "-m", "django", "migrate", "--verbosity=0"],
        env=environment_of(folder, DJANGO_SETTINGS_MODULE="wholeball.site.settings"),
        check=True,
    )
    return folder / "wholeball.sqlite3"


def test_a_plain_migration_sets_them_up_for_every_program_that_opens_the_file(
    tmp_path: Path,
) -> None:
    rest = "number, at, did, what, before, hash"
    into = f"INTO store_auditrow (organisation_id, {rest})"
    by_key = f"REPLACE INTO store_auditrow (id, organisation_id, {rest})"
    values = "VALUES (1, 1, '2026-11-26 09:05:00', 'read'"
    with sqlite3.connect(a_migrated_file(tmp_path)) as file:
        file.execute("PRAGMA foreign_keys = OFF")
        file.execute(f"INSERT {into} {values}, 'one', '', '')")
        for statement in (
            "UPDATE store_auditrow SET what = 'two'",
            "DELETE FROM store_auditrow",
            f"REPLACE {into} {values}, 'two', '', '')",
            f"{by_key} SELECT id, 2, 2, at, did, 'two', '', '' FROM store_auditrow",  # noqa: S608
        ):
            with pytest.raises(sqlite3.IntegrityError, match=REFUSED):
                file.execute(statement)
        assert file.execute("SELECT what FROM store_auditrow").fetchall() == [("one",)]


@pytest.mark.django_db
def test_an_entry_of_a_log_is_not_replaced_by_its_number_or_its_place() -> None:
    if connection.vendor != "sqlite":
        pytest.skip("PostgreSQL has no REPLACE; ON CONFLICT fires its triggers of UPDATE")
    entry = LogEntry.objects.create(
        season=a_season(), game="A1", position=1, dev="p", seq=1, line="{}"
    )
    columns = "season_id, game, position, dev, seq, repeat, line"
    replaces = f"REPLACE INTO store_logentry ({columns}) SELECT season_id, game, "
    for values in ("position, 'q', 9, repeat, '!'", "9, dev, seq, repeat, '!'"):
        with (
            pytest.raises(DatabaseError, match=REFUSED),
            transaction.atomic(),
            connection.cursor() as cursor,
        ):
            cursor.execute(f"{replaces}{values} FROM store_logentry")
    assert LogEntry.objects.get() == entry
    assert LogEntry.objects.get().line == "{}"


@pytest.mark.django_db
def test_a_trigger_of_the_same_name_that_refuses_nothing_is_mended_by_the_next_migration() -> (
    None
):
    name, table = "store_auditrow_no_update", "store_auditrow"
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute(f"DROP TRIGGER {name}")
            cursor.execute(
                f"CREATE TRIGGER {name} BEFORE UPDATE ON {table} BEGIN SELECT 1; END"
            )
        else:
            cursor.execute(f"ALTER TABLE {table} DISABLE TRIGGER {name}")
    assert triggers.missing(connection) == (name,)
    (found,) = trigger_findings(connection)
    assert (found.level, name in found.says) == ("refuse", True)
    audit.note(a_season().organisation, did="read", what="one", by=None, at=NOW)
    call_command("migrate", verbosity=0)
    assert trigger_findings(connection) == []
    with pytest.raises(DatabaseError, match=REFUSED), transaction.atomic():
        AuditRow.objects.update(what="two")
