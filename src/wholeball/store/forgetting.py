"""Takes what changes did to private files out of their rows, once it can no longer be taken back."""

from datetime import datetime, timedelta
from typing import Final

from django.db.models import Exists, OuterRef, Q

from wholeball.store.changes import PRIVATE, REPORTS
from wholeball.store.models import Change, Season, SeasonFile

KEPT_FOR: Final = timedelta(days=30)
"""How long a change to private files can be taken back."""
_NAMES: Final = PRIVATE | {"rosters.csv"}
"""Rosters hold the ends of student ids."""


def forget_private(now: datetime, season: Season | None = None) -> int:
    """Empty what is over, of one season or of all, and return how many changes. 1 query.

    Who changed which file, and when, stays; so does the file itself.
    """
    every = Change.objects.all() if season is None else Change.objects.filter(season=season)
    marked = SeasonFile.objects.filter(
        season=OuterRef("season"), name=OuterRef("name"), is_private=True
    )
    private = Q(name__in=_NAMES) | Q(name__startswith=REPORTS) | Exists(marked)
    over = every.filter(private, at__lt=now - KEPT_FOR).exclude(gone=[], came=[])
    return over.update(gone=[], came=[])
