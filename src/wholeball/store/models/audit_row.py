"""Is who did what, or saw something private, and when: added, never changed or taken out."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from wholeball.store.models.account import Account
from wholeball.store.models.organisation import Organisation


class AuditRow(models.Model):
    """One deed; it names what it was done to and never holds the data themselves.

    Rows of an organisation are numbered from 1 without a gap, and each has the hash of the one
    before in its own; triggers refuse UPDATE and DELETE.
    """

    organisation = models.ForeignKey(Organisation, on_delete=models.PROTECT)
    number = models.PositiveBigIntegerField()
    at = models.DateTimeField()
    account = models.ForeignKey(Account, on_delete=models.PROTECT, null=True, blank=True)
    did = models.CharField(max_length=40)
    what = models.CharField(max_length=300)
    before = models.CharField(max_length=64, blank=True)
    hash = models.CharField(max_length=64)

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["organisation", "number", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["organisation", "number"], name="store_auditrow_number"
            ),
            models.CheckConstraint(
                condition=~Q(did="") & ~Q(what=""), name="store_auditrow_says"
            ),
        ]
