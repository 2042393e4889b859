"""Is one entry of a game's log: it is added, and never changed or taken out."""

from typing import ClassVar

from django.db import models

from wholeball.store.models.organisation import Season


class LogEntry(models.Model):
    """An entry of a game's log, its stored line verbatim; triggers refuse UPDATE and DELETE.

    `position` counts the entries of a game from 1 in the order in which they came in. Nothing
    that happened is refused: where a device used a number twice, `repeat` counts those after
    the first.
    """

    season = models.ForeignKey(Season, on_delete=models.PROTECT, related_name="entries")
    game = models.CharField(max_length=80)
    position = models.PositiveIntegerField()
    dev = models.CharField(max_length=64)
    seq = models.PositiveIntegerField()
    repeat = models.PositiveIntegerField(default=0)
    line = models.TextField()

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "game", "position", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["season", "game", "position"], name="store_logentry_position"
            ),
            models.UniqueConstraint(
                fields=["season", "game", "dev", "seq", "repeat"], name="store_logentry_once"
            ),
        ]
