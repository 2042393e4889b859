"""Keeps what was computed from a season until the season, or the program, is another."""

import hashlib
from collections.abc import Callable
from typing import Any, Final

from django.db.models import OuterRef, Subquery, Value
from django.db.models.functions import Coalesce

from wholeball import __version__
from wholeball.store.models import Derived, Edition, Season
from wholeball.store.snapshot import Snapshot, snapshot_of
from wholeball.store.writing import held

_RULEBOOK: Final = Subquery(
    Edition.objects.filter(season=OuterRef("pk"), is_current=True).values("digest")
)


def key_of(season: Season) -> str:
    """Return the digest of all that results of a season depend on. 1 query.

    It changes with the season's version, with what was recorded of its games, with the edition
    of the rulebook, and with the program.
    """
    depends: tuple[Any, ...] = (
        Season.objects.filter(pk=season.pk)
        .annotate(rulebook=Coalesce(_RULEBOOK, Value("")))
        .values_list("pk", "version", "log_head", "rulebook")
        .get()
    )
    return hashlib.sha256("|".join(map(str, (__version__, *depends))).encode()).hexdigest()


def derived(
    season: Season, name: str, make: Callable[[Snapshot], bytes], *, key: str = ""
) -> bytes:
    """Return a result of a season by its name, made where there is none of today's facts.

    `make` is given the season as it is and nothing else: whatever else its result depends on,
    such as the day, is part of the name. 2 queries where it is there, 1 for who has asked for
    the key of today's facts already and gives it.
    """
    wanted = key or key_of(season)
    found = Derived.objects.filter(season=season, name=name, key=wanted).first()
    if found is not None:
        return bytes(found.data)
    seen = snapshot_of(season)
    data = make(seen)
    with held(season) as now:
        if now.version == seen.season.version:
            Derived.objects.update_or_create(
                season=now, name=name, defaults={"key": key_of(now), "data": data}
            )
    return data


def forget(season: Season | None = None) -> int:
    """Delete every result, of one season or of all, and return how many. 1 query."""
    every = Derived.objects.all() if season is None else Derived.objects.filter(season=season)
    return every.delete()[0]
