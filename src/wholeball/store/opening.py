"""Opens the noticeboard of a season to everybody, or closes it again."""

from datetime import datetime

from django.db import transaction

from wholeball.store import audit
from wholeball.store.models import Account, Season


def open_to_all(season: Season, is_public: bool, *, by: Account, at: datetime) -> None:  # noqa: FBT001 - the state itself
    """Let everybody read a season's noticeboard, or its people alone; noted. 4 queries."""
    with transaction.atomic():
        Season.objects.filter(pk=season.pk).update(is_public=is_public)
        audit.note(
            season.organisation,
            did="opened" if is_public else "closed",
            what=f"{season.slug}: the noticeboard",
            by=by,
            at=at,
        )
