"""Is what stands in a season under a name, whole texts, and what each write changed."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from wholeball.store.models.account import Account
from wholeball.store.models.organisation import Season


class SeasonFile(models.Model):
    """A name that stands in a season: one row each, whatever keeps what is in it.

    A text (season.toml, planning.toml, a paper scorecard, a README) is kept in `text`. Of a
    table, `columns` are those it has, in their order and with spaces between, and `head_row` is
    the row on which they stand; its rows are kept apart, as are logs, editions and timetables
    that were replaced.
    """

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="files")
    name = models.CharField(max_length=200)
    is_private = models.BooleanField(default=False)
    columns = models.TextField(blank=True, default="")
    head_row = models.PositiveIntegerField(default=1)
    text = models.TextField(blank=True, default="")

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "name", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["season", "name"], name="store_seasonfile_name"),
            models.CheckConstraint(condition=~Q(name=""), name="store_seasonfile_named"),
        ]


class Edition(models.Model):
    """A rulebook.toml as it was once published; the newest that is current counts.

    `digest` is the SHA-256 of its bytes. Older editions are kept.
    """

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="editions")
    number = models.PositiveIntegerField()
    text = models.TextField()
    digest = models.CharField(max_length=64)
    is_current = models.BooleanField(default=True)

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "number", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["season", "number"], name="store_edition_number"),
            models.UniqueConstraint(
                fields=["season"],
                condition=Q(is_current=True),
                name="store_edition_one_current",
            ),
        ]


class ReplacedTimetable(models.Model):
    """A timetable that another took the place of, under the name it is kept by."""

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="replaced")
    name = models.CharField(max_length=200)
    text = models.TextField()

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "name", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["season", "name"], name="store_replacedtimetable_name"
            ),
        ]


class Change(models.Model):
    """What one write changed in one file: at `place`, the lines of `gone` made way for `came`.

    The lines of a table are its rows, each a list of cells; those of a text are its lines with
    their ends. They are kept so that people are told what changed, and can take it back;
    those of private files go after some time, and both are empty then.
    """

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="changes")
    version = models.PositiveBigIntegerField()
    name = models.CharField(max_length=200)
    account = models.ForeignKey(Account, on_delete=models.PROTECT, null=True, blank=True)
    at = models.DateTimeField()
    place = models.PositiveIntegerField()
    gone = models.JSONField()
    came = models.JSONField()

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "version", "name", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["season", "version", "name"], name="store_change_once"
            ),
        ]

    @property
    def is_forgotten(self) -> bool:
        """Whether it can no longer be taken back, because its lines were private and are gone."""
        return not self.gone and not self.came
