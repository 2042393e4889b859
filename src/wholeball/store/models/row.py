"""Is what all rows of the season's tables have in common."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from wholeball.store.models.organisation import Season


class Row(models.Model):
    """A row of one table of a season; each column of the table is a field, in its order.

    `position` is the row's number in the table, where the first line is 1. Cells stand as they
    are written: without spaces around them, words that a spreadsheet would run behind an
    apostrophe. A column that the table lacks is empty.
    """

    FILE: ClassVar[str]

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="+")
    position = models.PositiveIntegerField()

    class Meta:
        abstract = True
        app_label = "store"
        ordering: ClassVar = ["season", "position", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["season", "position"], name="store_%(class)s_position"
            ),
        ]


def cell(column: str | None = None) -> "models.TextField[str, str]":
    """Return the field of a column; `column` is its name where it is no field's name."""
    return models.TextField(blank=True, default="", db_column=column)


def needed(*fields: str) -> models.CheckConstraint:
    """Return that the cells of some columns are never empty."""
    every = Q()
    for name in fields:
        every &= ~Q(**{name: ""})
    return models.CheckConstraint(condition=every, name="store_%(class)s_needed")
