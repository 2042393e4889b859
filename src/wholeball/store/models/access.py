"""Is what lets somebody in by a link: a calendar's feed, an invitation."""

from typing import ClassVar, Final

from django.db import models
from django.db.models import Q

from wholeball.store.models.account import Account
from wholeball.store.models.organisation import ROLES, Organisation, Season

FEEDS: Final = ("team", "official", "field")


class FeedToken(models.Model):
    """A link to the calendar of a team, an official or a field; only its hash is kept."""

    season = models.ForeignKey(Season, on_delete=models.CASCADE)
    account = models.ForeignKey(Account, on_delete=models.CASCADE, null=True, blank=True)
    kind = models.CharField(max_length=20, choices=[(one, one) for one in FEEDS])
    subject = models.CharField(max_length=80)
    digest = models.CharField(max_length=64)
    made_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["season", "kind", "subject", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["digest"], name="store_feedtoken_digest"),
            models.CheckConstraint(
                condition=Q(kind__in=FEEDS), name="store_feedtoken_known_kind"
            ),
            models.CheckConstraint(condition=~Q(subject=""), name="store_feedtoken_subject"),
        ]


class Invitation(models.Model):
    """A link by which somebody gets a role, once; only its hash is kept."""

    organisation = models.ForeignKey(Organisation, on_delete=models.CASCADE)
    email = models.EmailField(blank=True)
    role = models.CharField(max_length=20, choices=[(one, one) for one in ROLES])
    season = models.ForeignKey(Season, on_delete=models.CASCADE, null=True, blank=True)
    team = models.CharField(max_length=80, blank=True, default="")
    person = models.CharField(max_length=80, blank=True, default="")
    digest = models.CharField(max_length=64)
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["organisation", "expires_at", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["digest"], name="store_invitation_digest"),
            models.CheckConstraint(
                condition=Q(role__in=ROLES), name="store_invitation_known_role"
            ),
        ]
