"""Makes the database itself refuse to change or take out what is only ever added."""

from collections.abc import Iterator
from typing import Final

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.backends.base.base import BaseDatabaseWrapper

TABLES: Final = ("store_logentry", "store_auditrow")
"""The tables whose rows are only ever added."""
_KEYS: Final = {
    "store_logentry": (
        ("id",),
        ("season_id", "game", "position"),
        ("season_id", "game", "dev", "seq", "repeat"),
    ),
    "store_auditrow": (("id",), ("organisation_id", "number")),
}
"""What only one row may have: by REPLACE, SQLite takes out the row that has it already, and fires
no trigger of DELETE for that."""
_DEEDS: Final = ("update", "delete")
_OF_SQLITE: Final = "replace"
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
    last = _OF_SQLITE if connection.vendor == "sqlite" else _OF_POSTGRESQL
    return {_name(table, deed): table for table in TABLES for deed in (*_DEEDS, last)}


def missing(connection: BaseDatabaseWrapper) -> tuple[str, ...]:
    """Return the triggers that are not there, switched off, or other than they should be. 1 query."""
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
            there = dict(cursor.fetchall())
            wanted = {name: sql for table in TABLES for name, sql in _of_sqlite(table)}
            return tuple(name for name, sql in wanted.items() if there.get(name) != sql)
        cursor.execute(
            "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal AND tgenabled IN ('O', 'A')"
        )
        works = {name for (name,) in cursor.fetchall()}
    return tuple(name for name in names(connection) if name not in works)


def _name(table: str, deed: str) -> str:
    return f"{table}_no_{deed}"


def _statements(connection: BaseDatabaseWrapper, table: str) -> Iterator[str]:
    """Return what sets the triggers of a table up, also where others stand under their names."""
    if connection.vendor == "sqlite":
        for name, statement in _of_sqlite(table):
            yield f"DROP TRIGGER IF EXISTS {name}"
            yield statement
        return
    yield (
        f"CREATE OR REPLACE FUNCTION {table}_refuse() RETURNS trigger LANGUAGE plpgsql AS "
        f"$$ BEGIN RAISE EXCEPTION '{_SAYS.format(table=table)}' "
        "USING ERRCODE = 'integrity_constraint_violation'; END $$"
    )
    for deed in (*_DEEDS, _OF_POSTGRESQL):
        name = _name(table, deed)
        each = "STATEMENT" if deed == _OF_POSTGRESQL else "ROW"
        yield f"DROP TRIGGER IF EXISTS {name} ON {table}"
        yield (
            f"CREATE TRIGGER {name} BEFORE {deed.upper()} ON {table} "
            f"FOR EACH {each} EXECUTE FUNCTION {table}_refuse()"
        )


def _of_sqlite(table: str) -> Iterator[tuple[str, str]]:
    """Return each trigger of a table, by its name, as SQLite keeps its text."""
    refuses = f"BEGIN SELECT RAISE(ABORT, '{_SAYS.format(table=table)}'); END"
    for deed in _DEEDS:
        name = _name(table, deed)
        yield name, f"CREATE TRIGGER {name} BEFORE {deed.upper()} ON {table} {refuses}"
    same = " OR ".join(
        "(" + " AND ".join(f"{one} = NEW.{one}" for one in key) + ")" for key in _KEYS[table]
    )
    stands = f"EXISTS (SELECT 1 FROM {table} WHERE {same})"  # noqa: S608 - names of ours only
    name = _name(table, _OF_SQLITE)
    yield name, f"CREATE TRIGGER {name} BEFORE INSERT ON {table} WHEN {stands} {refuses}"
