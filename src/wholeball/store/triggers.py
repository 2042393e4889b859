"""Makes the database itself refuse to change or take out what is only ever added."""

from collections.abc import Iterator
from typing import Final

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.backends.base.base import BaseDatabaseWrapper

TABLES: Final = ("store_logentry", "store_auditrow")
"""The tables whose rows are only ever added."""
_DEEDS: Final = ("update", "delete")
_OF_POSTGRESQL: Final = "truncate"
_SAYS: Final = "rows of {table} are never changed or taken out"


def install(*, using: str = DEFAULT_DB_ALIAS, **_: object) -> None:
    """Set the triggers up after every migration, so that a table made anew has them again.

    SQLite makes a table anew when a later migration changes one of its columns, and its triggers
    are lost with the old one.
    """
    connection = connections[using]
    there = set(connection.introspection.table_names())
    with connection.cursor() as cursor:
        for table in TABLES:
            if table in there:
                for statement in _statements(connection, table):
                    cursor.execute(statement)


def names(connection: BaseDatabaseWrapper) -> dict[str, str]:
    """Return the table of each trigger of a database, by the trigger's name."""
    deeds = _DEEDS if connection.vendor == "sqlite" else (*_DEEDS, _OF_POSTGRESQL)
    return {_name(table, deed): table for table in TABLES for deed in deeds}


def missing(connection: BaseDatabaseWrapper) -> tuple[str, ...]:
    """Return the triggers that are not there. 1 query."""
    asked = (
        "SELECT name FROM sqlite_master WHERE type = 'trigger'"
        if connection.vendor == "sqlite"
        else "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal"
    )
    with connection.cursor() as cursor:
        cursor.execute(asked)
        there = {name for (name,) in cursor.fetchall()}
    return tuple(name for name in names(connection) if name not in there)


def _name(table: str, deed: str) -> str:
    return f"{table}_no_{deed}"


def _statements(connection: BaseDatabaseWrapper, table: str) -> Iterator[str]:
    says = _SAYS.format(table=table)
    if connection.vendor == "sqlite":
        for deed in _DEEDS:
            yield (
                f"CREATE TRIGGER IF NOT EXISTS {_name(table, deed)} "
                f"BEFORE {deed.upper()} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{says}'); END"
            )
        return
    yield (
        f"CREATE OR REPLACE FUNCTION {table}_refuse() RETURNS trigger LANGUAGE plpgsql AS "
        f"$$ BEGIN RAISE EXCEPTION '{says}' USING ERRCODE = 'integrity_constraint_violation'; "
        "END $$"
    )
    for deed in (*_DEEDS, _OF_POSTGRESQL):
        name = _name(table, deed)
        each = "STATEMENT" if deed == _OF_POSTGRESQL else "ROW"
        yield f"DROP TRIGGER IF EXISTS {name} ON {table}"
        yield (
            f"CREATE TRIGGER {name} BEFORE {deed.upper()} ON {table} "
            f"FOR EACH {each} EXECUTE FUNCTION {table}_refuse()"
        )
