"""Keeps what was computed from a season until the season, or the program, is another."""

import hashlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, Final

from django.db.models import OuterRef, Subquery, Value
from django.db.models.functions import Coalesce

from wholeball import __version__
from wholeball.kernel.faults import WholeballError
from wholeball.store.full_disk import CODE as FULL
from wholeball.store.models import Derived, Edition, Season
from wholeball.store.snapshot import Snapshot, drop_kept, snapshot_of
from wholeball.store.writing import held

_HALF: Final = 16
"""Bytes of a digest; a key is two of them, of the facts and of the moment."""
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
        .values_list("pk", "version", "head", "log_head", "rulebook")
        .get()
    )
    return _digest("|".join(map(str, (__version__, *depends))))


def derived(
    season: Season,
    name: str,
    make: Callable[[Snapshot], bytes],
    *,
    key: str = "",
    moment: str = "",
) -> bytes:
    """Return a result of a season by its name, made where there is none of today's facts.

    `make` is given the season as it is and nothing else: whatever else its result depends on,
    such as the day, is said by the `moment`. One result is kept for a name, the newest, and
    none of older facts. 2 queries where it is there, 1 for who has asked for the key of today's
    facts already and gives it.
    """
    wanted = _key(key or key_of(season), moment)
    found = Derived.objects.filter(season=season, name=name, key=wanted).first()
    if found is not None:
        return bytes(found.data)
    seen = snapshot_of(season)
    data = make(seen)
    with _unless_full(), held(season) as now:
        if now.version == seen.season.version:
            _keep(now, name, key_of(now), moment, data)
    return data


@contextmanager
def _unless_full() -> Iterator[None]:
    """Let what is only read be read where the disk is full: it is made anew each time."""
    try:
        yield
    except WholeballError as refused:
        if refused.code != FULL:
            raise


def _keep(season: Season, name: str, facts: str, moment: str, data: bytes) -> None:
    Derived.objects.filter(season=season).exclude(key__startswith=facts).delete()
    kept = {"key": _key(facts, moment), "data": data}
    Derived.objects.update_or_create(season=season, name=name, defaults=kept)


def _key(facts: str, moment: str) -> str:
    return f"{facts}{_digest(moment)}"


def _digest(text: str) -> str:
    return hashlib.blake2b(text.encode(), digest_size=_HALF).hexdigest()


def forget(season: Season | None = None) -> int:
    """Delete every result, of one season or of all, and return how many. 1 query.

    What this process keeps of seasons as they were read is dropped too.
    """
    drop_kept()
    every = Derived.objects.all() if season is None else Derived.objects.filter(season=season)
    return every.delete()[0]
