"""Is what somebody works on and nobody reads yet: drafts of a file, and searches for a plan."""

from typing import ClassVar, Final

from django.db import models
from django.db.models import Q

from wholeball.store.models.account import Account
from wholeball.store.models.organisation import Season

SEARCHES: Final = ("plan", "repair", "explain", "helps")
STATES: Final = ("waiting", "running", "done", "failed")


class Draft(models.Model):
    """What somebody would write into a file of a season, apart from what stands there.

    `base` is what stood there when the draft was begun, `text` what would stand there, and
    `before` the texts of earlier steps, the last one last. `lost` are rows that would come to
    closures.csv with it, and `why` says where the draft comes from.
    """

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="drafts")
    account = models.ForeignKey(Account, on_delete=models.CASCADE)
    file = models.CharField(max_length=60)
    base = models.TextField(blank=True)
    text = models.TextField(blank=True)
    before = models.JSONField(default=list)
    lost = models.JSONField(default=list)
    why = models.CharField(max_length=200, blank=True, default="")
    version = models.PositiveBigIntegerField(default=0)
    step = models.PositiveIntegerField(default=0)

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "account", "file", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["season", "account", "file"], name="store_draft_one_each"
            ),
            models.CheckConstraint(condition=~Q(file=""), name="store_draft_of_a_file"),
        ]


class Search(models.Model):
    """A search for a timetable: what was asked, how far it is, and what was found.

    `beat` is when its worker last said that it works. Costs are whole; `left` is in seconds.
    """

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="searches")
    account = models.ForeignKey(Account, on_delete=models.CASCADE)
    kind = models.CharField(max_length=20, choices=[(one, one) for one in SEARCHES])
    asked = models.JSONField(default=dict)
    base = models.TextField(blank=True, default="")
    version = models.PositiveBigIntegerField()
    state = models.CharField(
        max_length=20, choices=[(one, one) for one in STATES], default="waiting"
    )
    wants_stop = models.BooleanField(default=False)
    made_at = models.DateTimeField()
    beat = models.DateTimeField()
    seconds = models.FloatField(default=0)
    left = models.FloatField(null=True, blank=True)
    best = models.BigIntegerField(null=True, blank=True)
    bound = models.FloatField(null=True, blank=True)
    found = models.JSONField(default=dict)

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "-pk"]
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(kind__in=SEARCHES), name="store_search_known_kind"
            ),
            models.CheckConstraint(
                condition=Q(state__in=STATES), name="store_search_known_state"
            ),
        ]
