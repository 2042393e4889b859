"""Asks what was changed in a season, and what the audit noted."""

from typing import Final

from wholeball.store.models import AuditRow, Change, Edition, Organisation, Season

_DRAWS: Final = "draws/"
"""Draws of lots, which nobody takes back and which hold a secret until they are held."""


def latest_changes(season: Season, *, most: int, after: int = 0) -> list[Change]:
    """Return the latest changes with who made them, newest first, but for draws. 1 query.

    So many are passed over as `after` says.
    """
    every = Change.objects.filter(season=season).exclude(name__startswith=_DRAWS)
    every = every.select_related("account")
    return list(every.order_by("-version", "name", "pk")[after : after + most])


def change_of(season: Season, change: int) -> Change | None:
    """Return a change of a season by its key, or None. 1 query."""
    return Change.objects.filter(season=season, pk=change).select_related("account").first()


def written_with(change: Change) -> list[Change]:
    """Return what else the same write changed, in the order of the files. 1 query."""
    every = Change.objects.filter(season=change.season_id, version=change.version)
    return list(every.exclude(pk=change.pk).select_related("account").order_by("name", "pk"))


def latest_deeds(organisation: Organisation, *, most: int) -> list[AuditRow]:
    """Return the latest rows of the audit with who did it, newest first. 1 query."""
    every = AuditRow.objects.filter(organisation=organisation).select_related("account")
    return list(every.order_by("-number")[:most])


def editions(season: Season) -> list[Edition]:
    """Return every edition of a season's rulebook, newest first. 1 query."""
    return list(Edition.objects.filter(season=season).order_by("-number"))
