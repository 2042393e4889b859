"""Lets one writer at a time change a season, and tells whoever worked on an older version."""

import hashlib
from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from threading import RLock
from typing import Final

from django.db import transaction

from wholeball.kernel.faults import WholeballError
from wholeball.store.changes import Line, changes_since, clashes, conflict
from wholeball.store.full_disk import room_needed
from wholeball.store.models import Account, Change, Season

LOCK: Final = RLock()
"""Held by whoever writes in this process; the database keeps other processes apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Writer:
    """Who writes and when, and which version of the season they looked at; None for any."""

    account: Account | None
    at: datetime
    version: int | None = None


@contextmanager
def alone() -> Iterator[None]:
    """Be the only writer of this process, in one transaction.

    Whoever means to write a season within a transaction begins it by this: the lock comes
    before the database. Begun the other way round, two writers would wait for each other.

    Raises:
        WholeballError: the disk of the database is full; everything is as it was.
    """
    with LOCK, room_needed(), transaction.atomic():
        yield


@contextmanager
def held(season: Season) -> Iterator[Season]:
    """Hold a season against other writers, in one transaction. 1 query.

    Whoever holds it may hold it again.
    """
    with alone():
        yield Season.objects.select_for_update().get(pk=season.pk)


@contextmanager
def writing(season: Season, version: int | None = None) -> Iterator[Season]:
    """Hold a season and give it a new version at the end. 2 queries.

    Raises:
        WholeballError: the season never had that version, as after a backup was brought back.
    """
    with held(season) as now:
        if version is not None and version > now.version:
            raise _of_another_past(now)
        now.version += 1
        yield now
        now.save(update_fields=["version", "log_head", "head"])


class Meanwhile:
    """What others changed in some files after the version that a writer looked at. 1 query.

    What they changed in other files is no conflict, nor is what is apart in the same file.
    """

    def __init__(self, season: Season, version: int | None, names: Collection[str]) -> None:
        """Take a season that is being written, and so has its new version already."""
        self.changes: list[Change] = []
        if version is not None and version < season.version - 1:
            self.changes = changes_since(season, version, names)

    def refuse(self, name: str, gone: Sequence[Line], came: Sequence[Line]) -> None:
        """Refuse to write in a file where it would take back what others did.

        Raises:
            WholeballError: it would, and who changed what.
        """
        if any(one.name == name and clashes(one, gone, came) for one in self.changes):
            raise conflict(self.changes)

    def explained(self, refused: WholeballError) -> WholeballError:
        """Return why something cannot be kept: beside what others did, where they did anything."""
        return conflict(self.changes) if self.changes else refused


def hash_on(season: Season, name: str, data: bytes | None) -> None:
    """Hash onto the head of a season what is written under a name; None takes it out."""
    what = "gone" if data is None else hashlib.sha256(data).hexdigest()
    season.head = hashlib.sha256(f"{season.head}\n{name}\n{what}\n".encode()).hexdigest()


def _of_another_past(season: Season) -> WholeballError:
    return WholeballError(
        f"The page was made from a version of {season.name} that is not there.",
        fix="Nothing of yours was written. Open the page again, and make your change to that.",
        code="conflict",
    )
