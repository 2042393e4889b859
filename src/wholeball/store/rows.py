"""Reads the rows of a season's table, and changes those that a new text of it changes."""

from itertools import takewhile
from operator import eq
from typing import TypeAlias

from django.db import IntegrityError, connection
from django.db.models import Manager

from wholeball.kernel.faults import WholeballError
from wholeball.store.models import TABLES, Row, Season, SeasonFile
from wholeball.store.models.tables import fields_of
from wholeball.store.table_text import Cells, Sheet

Numbered: TypeAlias = tuple[int, Cells]


def sheet_in(file: SeasonFile) -> Sheet:
    """Return the rows of a table that stands in a season. 1 query."""
    return Sheet(
        columns=tuple(file.columns.split()),
        head_row=file.head_row,
        rows=rows_in(file.season_id, file.name),
    )


def rows_in(season: int, name: str) -> tuple[Numbered, ...]:
    """Return the rows of a table with their numbers, in order. 1 query."""
    found = _model(name).filter(season_id=season).order_by("position")
    return tuple(
        (position, cells)
        for position, *rest in found.values_list("position", *fields_of(name).values())
        for cells in (tuple(rest),)
    )


def put_rows(season: Season, name: str, old: tuple[Numbered, ...], new: Sheet) -> None:
    """Put the rows of a table in the place of its old ones. 2 queries, one of them per new row.

    Rows that stay as they are, before the first that changes and behind the last, are not
    touched.

    Raises:
        WholeballError: two rows say what only one may, or a cell that is needed is empty.
    """
    first, behind = same_ends(old, new.rows)
    came = new.rows[first : len(new.rows) - behind]
    gone = old[first : len(old) - behind]
    try:
        if gone:
            _model(name).filter(
                season=season, position__gte=gone[0][0], position__lte=gone[-1][0]
            ).delete()
        if came:
            _add_rows(season, name, came)
    except IntegrityError as error:
        raise WholeballError(
            f"{name} cannot be kept: {_rule(error)}.",
            fix="Take out what it says twice, and fill in every cell that is needed.",
            code="duplicate",
        ) from error


def same_ends(old: tuple[object, ...], new: tuple[object, ...]) -> tuple[int, int]:
    """Return how many at the beginning of both are the same, and how many of the rest at the end."""
    first = sum(1 for _ in takewhile(bool, map(eq, old, new)))
    behind = sum(
        1 for _ in takewhile(bool, map(eq, reversed(old[first:]), reversed(new[first:])))
    )
    return first, behind


def drop_rows(season: Season, name: str) -> None:
    """Take out all rows of a table. 1 query."""
    _model(name).filter(season=season).delete()


def _rule(error: IntegrityError) -> str:
    """Return which rule was broken, without the row that PostgreSQL writes beneath."""
    return str(error).partition("\n")[0]


def _add_rows(season: Season, name: str, rows: tuple[Numbered, ...]) -> None:
    """Add rows by one statement that is run for each; no object is made of any of them.

    Making one for each row takes four times as long as reading, checking and adding them.
    """
    quoted = connection.ops.quote_name
    table = quoted(TABLES[name]._meta.db_table)
    columns = ("season_id", "position", *fields_of(name))
    names, marks = ", ".join(map(quoted, columns)), ", ".join("%s" for _ in columns)
    added = f"INSERT INTO {table} ({names}) VALUES ({marks})"  # noqa: S608 - names of ours only
    with connection.cursor() as cursor:
        cursor.executemany(added, [(season.pk, at, *cells) for at, cells in rows])


def _model(name: str) -> Manager[Row]:
    return TABLES[name]._default_manager
