"""Writes the whole database to one file: a copy of SQLite's own, or rows for any database."""

import tempfile
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Final

from django.apps import apps
from django.core import serializers
from django.db import connection, transaction
from django.db.migrations.recorder import MigrationRecorder
from django.db.models import Model

from wholeball import __version__
from wholeball.kernel.faults import WholeballError
from wholeball.site.backup_file import Head, Kept, Kind, write_file
from wholeball.site.rederive import digests_of_results

MADE_ANEW: Final = frozenset({"contenttypes", "auth", "sessions", "usersessions"})
"""Apps whose rows are made by Django itself, or end with signing in: not among the rows."""


def write_backup(path: Path, *, now: datetime, as_rows: bool) -> Kept:
    """Write the database as it is at one moment; people may go on writing meanwhile.

    Raises:
        WholeballError: the file is there already, or the database has never been served.
    """
    if path.exists():
        raise WholeballError(
            f"{path} is there already.", fix="Name a new file; no backup is written over."
        )
    with tempfile.TemporaryDirectory(dir=path.absolute().parent) as folder:
        copy = Path(folder) / "data"
        kind: Kind = "rows" if as_rows else "sqlite"
        (_write_rows if as_rows else _copy_database)(copy)
        head = Head(
            program=__version__,
            made=now.isoformat(timespec="seconds"),
            kind=kind,
            schema=migrations_run(),
            results=digests_of_results(),
        )
        with copy.open("rb") as data:
            return write_file(path, head, data)


def migrations_run() -> dict[str, list[str]]:
    """Return the migrations that this database has had, by app. 1 query."""
    if not connection.introspection.table_names():
        raise WholeballError(
            f"{connection.settings_dict['NAME']}: there is nothing in it.",
            fix="Serve the site once, or name its folder by --data.",
            code="empty",
        )
    run: dict[str, list[str]] = {}
    for app, name in sorted(MigrationRecorder(connection).applied_migrations()):
        run.setdefault(app, []).append(name)
    return run


def models_with_rows() -> list[type[Model]]:
    """Return the models whose rows are kept, each after those that it points to."""
    kept = [
        (config, None) for config in apps.get_app_configs() if config.label not in MADE_ANEW
    ]
    return [
        model
        for model in serializers.sort_dependencies(kept)
        if model._meta.managed and not model._meta.proxy
    ]


def _copy_database(copy: Path) -> None:
    """Write a whole copy of the SQLite file. Readers and writers go on."""
    with connection.cursor() as cursor:
        cursor.execute("VACUUM INTO %s", [str(copy)])


def _write_rows(copy: Path) -> None:
    """Write every row as a line of JSON, all as they are at one moment."""
    with transaction.atomic(), copy.open("w", encoding="utf-8") as file:
        if connection.vendor == "postgresql":
            with connection.cursor() as cursor:
                cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ")
        serializers.serialize("jsonl", _rows(), stream=file)


def _rows() -> Iterator[Model]:
    for model in models_with_rows():
        yield from model._default_manager.order_by("pk").iterator()
