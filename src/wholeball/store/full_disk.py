"""Tells a database that has no room left from every other fault, in words for whoever writes."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from django.db import DatabaseError

from wholeball.kernel.faults import WholeballError

CODE: Final = "storage_full"
_SQLSTATE: Final = "53100"
"""PostgreSQL's disk_full."""


@contextmanager
def room_needed() -> Iterator[None]:
    """Say that nothing was kept, where there was no room for it.

    Raises:
        WholeballError: the disk of the database is full; everything is as it was.
    """
    try:
        yield
    except DatabaseError as failed:
        if not is_full(failed):
            raise
        raise no_room() from failed


def is_full(failed: BaseException) -> bool:
    """Tell whether a database refused for want of room."""
    cause = failed.__cause__
    code = getattr(cause, "sqlite_errorcode", None)
    return code == sqlite3.SQLITE_FULL or getattr(cause, "sqlstate", None) == _SQLSTATE


def no_room() -> WholeballError:
    """Return what whoever wrote is told."""
    return WholeballError(
        "The site's disk is full, so nothing of this was kept.",
        fix="Keep the paper, and send it again once whoever runs the site has made room.",
        code=CODE,
    )
