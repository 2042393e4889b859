"""Lets a database be read alone for a while, by SQLite's own pragma."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connection


@contextmanager
def read_only() -> Iterator[None]:
    """Refuse whatever would be written."""
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA query_only = ON")
        try:
            yield
        finally:
            cursor.execute("PRAGMA query_only = OFF")
