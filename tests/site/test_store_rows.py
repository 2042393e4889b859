"""Tests that the rows of the store are those of the season folder, and guard themselves."""

import importlib
import pkgutil
from datetime import UTC, datetime

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from wholeball import files
from wholeball.files.cells import Column
from wholeball.store import triggers
from wholeball.store.models import TABLES, AuditRow, LogEntry, Organisation, Season
from wholeball.store.models.tables import fields_of

pytestmark = pytest.mark.django_db


def _readers() -> dict[str, tuple[Column, ...]]:
    found = {}
    for one in pkgutil.iter_modules(files.__path__):
        module = importlib.import_module(f"wholeball.files.{one.name}")
        if hasattr(module, "FILE") and hasattr(module, "COLUMNS"):
            found[module.FILE] = module.COLUMNS
    return found


def test_every_table_of_the_folder_has_rows_with_its_columns_in_their_order() -> None:
    assert {file: list(fields_of(file)) for file in TABLES} == {
        file: [column.name for column in columns] for file, columns in _readers().items()
    }


@pytest.mark.parametrize("file", TABLES)
def test_a_row_is_refused_by_name_where_a_needed_cell_is_empty(file: str) -> None:
    season = _season()
    fields = fields_of(file)
    needed = [fields[column.name] for column in _readers()[file] if column.needed]
    model = TABLES[file]
    for at, lacking in enumerate(needed, start=1):
        cells = {name: f"{at}" for name in needed if name != lacking}
        name = f"store_{model._meta.model_name}_needed"
        with pytest.raises(IntegrityError, match=name), transaction.atomic():
            model._default_manager.create(season=season, position=at, **cells)
    model._default_manager.create(season=season, position=1, **dict.fromkeys(needed, "1"))


def test_the_database_refuses_to_change_or_take_out_an_entry_of_a_log() -> None:
    entry = LogEntry.objects.create(
        season=_season(), game="P1", position=1, dev="paper", seq=1, line="{}"
    )
    every = LogEntry.objects.filter(pk=entry.pk)
    with pytest.raises(DatabaseError, match="never changed or taken out"), transaction.atomic():
        every.update(line="{ }")
    with pytest.raises(DatabaseError, match="never changed or taken out"), transaction.atomic():
        every.delete()
    assert every.get().line == "{}"


def test_the_database_refuses_to_change_or_take_out_a_row_of_the_audit() -> None:
    row = AuditRow.objects.create(
        organisation=_season().organisation,
        number=1,
        at=datetime(2026, 11, 26, 9, 0, tzinfo=UTC),
        did="read",
        what="discipline.csv",
        hash="0" * 64,
    )
    every = AuditRow.objects.filter(pk=row.pk)
    with pytest.raises(DatabaseError, match="never changed or taken out"), transaction.atomic():
        every.update(did="wrote")
    with pytest.raises(DatabaseError, match="never changed or taken out"), transaction.atomic():
        every.delete()
    assert every.get().did == "read"


@pytest.mark.parametrize("table", triggers.TABLES)
def test_the_database_refuses_to_empty_a_table_to_which_rows_are_only_added(table: str) -> None:
    if connection.vendor == "sqlite":
        pytest.skip("SQLite empties a table by DELETE, which is refused for its first row")
    with pytest.raises(DatabaseError, match="never changed or taken out"), transaction.atomic():
        connection.cursor().execute(f"TRUNCATE {table} CASCADE")


def test_a_trigger_that_was_lost_is_named_until_the_next_migration_sets_it_up() -> None:
    assert triggers.missing(connection) == ()
    lost = "store_logentry_no_delete"
    with connection.cursor() as cursor:
        on = "" if connection.vendor == "sqlite" else " ON store_logentry"
        cursor.execute(f"DROP TRIGGER {lost}{on}")
    assert triggers.missing(connection) == (lost,)


def _season() -> Season:
    organisation = Organisation.objects.create(name="Harrow Fen", slug="harrow-fen")
    return Season.objects.create(organisation=organisation, slug="autumn", name="Autumn")
