"""Brings a backup back into an empty place; it is judged whole before anything is touched."""

import os
import sqlite3
from contextlib import closing
from itertools import groupby
from pathlib import Path
from typing import Final

from django.core import serializers
from django.core.management import call_command
from django.core.management.color import no_style
from django.core.serializers.base import DeserializedObject
from django.db import connection, transaction
from django.db.migrations.loader import MigrationLoader

from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.sentence import counted
from wholeball.site.backup_file import Head, data_of, read_head
from wholeball.site.backups import models_with_rows
from wholeball.site.rederive import differences

_ENDS: Final = ("", "-wal", "-shm", "-journal")
"""How the names of what SQLite keeps of a database end."""


def restore_backup(path: Path) -> str:
    """Bring a backup back, and say what was compared after.

    Raises:
        WholeballError: a byte was changed, a newer version wrote it, there are data already, or
            what the facts come to is not what it was.
    """
    head, start = read_head(path)
    _refuse_newer(path, head)
    _refuse_data()
    if head.kind == "rows":
        _load_rows(path, start)
    else:
        _put_database(path, start)
    _refuse_differences(path, head)
    compared = counted(len(head.results), "season")
    return f"{path}: restored as of {head.made}; {compared} derived again, none differs."


def _refuse_newer(path: Path, head: Head) -> None:
    """Refuse a backup that had migrations which this program does not know."""
    known = MigrationLoader(None).disk_migrations
    unknown = [
        f"{app}.{name}"
        for app, names in head.schema.items()
        for name in names
        if (app, name) not in known
    ]
    if unknown:
        raise WholeballError(
            f"{path}: a newer version wrote it ({head.program}; here {unknown[0]} is unknown).",
            fix="Nothing was touched. Install that version, and restore with it.",
            code="version",
        )


def _refuse_data() -> None:
    """Refuse to restore over data, and beside what is left of other data.

    SQLite would take the end of a file that is gone for the end of the one that is restored.
    """
    name = str(connection.settings_dict["NAME"])
    if connection.vendor == "sqlite":
        there = next((one for end in _ENDS if (one := Path(f"{name}{end}")).exists()), None)
    else:
        there = Path(name) if connection.introspection.table_names() else None
    if there is not None:
        raise WholeballError(
            f"{there}: there are data already.",
            fix="Nothing was touched. Name an empty folder by --data, or an empty database.",
            code="not_empty",
        )


def _put_database(path: Path, start: int) -> None:
    """Write the SQLite file beside its place, judge it, and name it so; then bring it up to date."""
    if connection.vendor != "sqlite":
        raise WholeballError(
            f"{path}: it is a copy of an SQLite file, and this is {connection.vendor}.",
            fix="Write it again with: wholeball backup FILE --rows",
            code="kind",
        )
    place = Path(connection.settings_dict["NAME"])
    part = place.with_name(f"{place.name}.part")
    try:
        with part.open("wb") as file:
            file.writelines(data_of(path, start))
            file.flush()
            os.fsync(file.fileno())
        with closing(sqlite3.connect(part)) as copy:
            told = copy.execute("PRAGMA integrity_check").fetchone()[0]
        if told != "ok":
            raise WholeballError(
                f"{path}: SQLite finds it broken: {told}.",
                fix="Nothing was touched. Take an older backup.",
                code="storage",
            )
        part.rename(place)
    finally:
        part.unlink(missing_ok=True)
    call_command("migrate", verbosity=0, interactive=False)


def _load_rows(path: Path, start: int) -> None:
    """Make the tables, and write all rows or none."""
    call_command("migrate", verbosity=0, interactive=False)
    text = b"".join(data_of(path, start)).decode()
    with transaction.atomic():
        for _, same in groupby(serializers.deserialize("jsonl", text), key=_model_of):
            for row in same:
                row.save(force_insert=True)
        with connection.cursor() as cursor:
            for line in connection.ops.sequence_reset_sql(no_style(), models_with_rows()):
                cursor.execute(line)


def _model_of(row: DeserializedObject) -> str:
    return row.object._meta.label


def _refuse_differences(path: Path, head: Head) -> None:
    """Compare what each season's facts come to with what they came to when it was written."""
    differ = differences(head.results)
    if differ:
        raise WholeballError(
            f"{path}: restored, but these seasons come to something else: {', '.join(differ)}.",
            fix="Keep this backup and the place as they are, and ask for help before going on.",
            code="differs",
        )
