"""Keeps what was computed from a season until the season, or the program, is another."""

import hashlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from wholeball import __version__
from wholeball.kernel.faults import WholeballError
from wholeball.store.full_disk import CODE as FULL
from wholeball.store.models import Derived, Season
from wholeball.store.snapshot import Snapshot, drop_kept, snapshot_of
from wholeball.store.writing import held

_HALF: Final = 16
"""Bytes of a digest; a key is two of them, of the facts and of the moment."""


def key_of(season: Season) -> str:
    """Return the digest of all that results of a season, as it was just read, depend on.

    It changes with each write of the season, the editions of its rulebook and what was recorded
    of its games among them, and with the program.
    """
    depends = (season.pk, season.version, season.head, season.log_head)
    return _digest("|".join(map(str, (__version__, *depends))))


def derived(
    season: Season,
    name: str,
    make: Callable[[Snapshot], bytes],
    *,
    moment: str = "",
) -> bytes:
    """Return a result of a season by its name, made where there is none of today's facts.

    `make` is given the season as it is and nothing else: whatever else its result depends on,
    such as the day, is said by the `moment`. One result is kept for a name, the newest, and
    none of older facts. The season is one that was just read. 1 query where it is there.
    """
    wanted = _key(key_of(season), moment)
    every = Derived.objects.filter(season=season, name=name, key=wanted)
    kept = next(iter(every.order_by().values_list("data", flat=True)), None)
    if kept is not None:
        return bytes(kept)
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
