"""Finds when the newest entry was stored, which no right clock is far behind."""

import re
from datetime import UTC, datetime
from typing import Final

from wholeball.store.models import AuditRow, Change, LogEntry

WALL: Final = re.compile(r'"wall":(\d{13})\b')
"""When a device made an entry, in milliseconds, as its sealed line says."""


def newest_entry() -> datetime | None:
    """Return when the last entry, change or deed was stored; None where there is none. 3 queries."""
    rows = (
        AuditRow.objects.order_by("-pk").values_list("at", flat=True).first(),
        Change.objects.order_by("-pk").values_list("at", flat=True).first(),
        _made(LogEntry.objects.order_by("-pk").values_list("line", flat=True).first()),
    )
    return max((at for at in rows if at is not None), default=None)


def _made(line: str | None) -> datetime | None:
    found = WALL.search(line or "")
    return datetime.fromtimestamp(int(found[1]) / 1000, UTC) if found else None
