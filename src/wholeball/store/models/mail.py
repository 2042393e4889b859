"""Is what people were told by mail: an occasion, and the message that each was to read."""

from typing import ClassVar, Final

from django.db import models
from django.db.models import Q

from wholeball.store.models.account import Account
from wholeball.store.models.organisation import Season

OCCASIONS: Final = ("published", "called_off", "correction")
POSTAL: Final = ("waiting", "sent", "failed", "no_address")


class Occasion(models.Model):
    """Something that people were told of at once; `what` is its place, for a night called off.

    `corrects` is the occasion that this one takes back.
    """

    season = models.ForeignKey(Season, on_delete=models.CASCADE, related_name="occasions")
    account = models.ForeignKey(Account, on_delete=models.PROTECT, null=True, blank=True)
    kind = models.CharField(max_length=20, choices=[(one, one) for one in OCCASIONS])
    says = models.CharField(max_length=300)
    what = models.JSONField(default=dict)
    at = models.DateTimeField()
    corrects = models.OneToOneField(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="correction"
    )

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "-pk"]
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(kind__in=OCCASIONS), name="store_occasion_known_kind"
            ),
        ]


class Message(models.Model):
    """What one person was to read: who, what, and when it was sent or why it was not."""

    occasion = models.ForeignKey(Occasion, on_delete=models.CASCADE, related_name="messages")
    who = models.CharField(max_length=200)
    address = models.EmailField(blank=True)
    subject = models.CharField(max_length=200)
    body = models.TextField()
    state = models.CharField(max_length=20, choices=[(one, one) for one in POSTAL])
    tried_at = models.DateTimeField(null=True, blank=True)
    tries = models.PositiveIntegerField(default=0)
    fault = models.CharField(max_length=200, blank=True, default="")

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["occasion", "who", "pk"]
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(state__in=POSTAL), name="store_message_known_state"
            ),
            models.CheckConstraint(
                condition=~Q(address="") | Q(state="no_address"), name="store_message_address"
            ),
        ]
