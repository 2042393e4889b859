"""Is what was computed from a season; all of it can be deleted at any time."""

from typing import ClassVar

from django.db import models

from wholeball.store.models.organisation import Season


class Derived(models.Model):
    """A result under the digest of all that it was computed from."""

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="derived")
    name = models.CharField(max_length=200)
    key = models.CharField(max_length=64)
    data = models.BinaryField()

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "name", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["season", "name"], name="store_derived_name"),
        ]
