"""Reads the rows of a season's table, and changes those that a new text of it changes."""

from itertools import takewhile
from operator import eq
from typing import Final, TypeAlias

from django.db import IntegrityError
from django.db.models import Manager

from wholeball.kernel.faults import WholeballError
from wholeball.store.models import TABLES, Row, Season, SeasonFile
from wholeball.store.models.tables import fields_of
from wholeball.store.table_text import Cells, Sheet

_BATCH: Final = 500
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
    """Put the rows of a table in the place of its old ones. 2 queries, and 1 for 500 new rows.

    Rows that stay as they are, before the first that changes and behind the last, are not
    touched.

    Raises:
        WholeballError: two rows say what only one may, or a cell that is needed is empty.
    """
    first, behind = same_ends(old, new.rows)
    came = new.rows[first : len(new.rows) - behind]
    gone = old[first : len(old) - behind]
    model, fields = TABLES[name], tuple(fields_of(name).values())
    try:
        if gone:
            _model(name).filter(
                season=season, position__gte=gone[0][0], position__lte=gone[-1][0]
            ).delete()
        if came:
            made = [
                model(season_id=season.pk, position=at, **dict(zip(fields, cells, strict=True)))
                for at, cells in came
            ]
            _model(name).bulk_create(made, batch_size=_BATCH)
    except IntegrityError as error:
        raise WholeballError(
            f"{name} cannot be kept: {error}.",
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


def _model(name: str) -> Manager[Row]:
    return TABLES[name]._default_manager
