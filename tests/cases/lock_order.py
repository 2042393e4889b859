"""Begins a season while another thread, which holds the lock of writers, comes to the database.

It runs as `python -m cases.lock_order WAY`, on a new SQLite file as the site has it; the way is
"preset", "teams" or "folder".
"""

import sys
import threading
from collections.abc import Callable
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import django
from django.core.management import call_command
from django.db import OperationalError, connection, transaction

if TYPE_CHECKING:
    from wholeball.store.models import Account, Organisation

HEAD_START: Final = 1.0
"""Seconds until the thread that begins a season is sure to wait for the lock."""
EXAMPLE: Final = Path(__file__).resolve().parents[2] / "examples/lantern-hill"
PATIENCE: Final = 3000
"""Milliseconds until a thread gives the database up."""


def main() -> None:
    """Print what came of both threads."""
    from wholeball.store.models import Account, Organisation, Season  # noqa: PLC0415 - set up first
    from wholeball.store.writing import LOCK  # noqa: PLC0415

    call_command("migrate", verbosity=0)
    organisation = Organisation.objects.create(name="Fen", slug="fen")
    account = Account.objects.create_user("kim@fen.example")
    begins = threading.Thread(target=_begin, args=(organisation, account))
    with LOCK:
        begins.start()
        begins.join(HEAD_START)
        wrote = _write()
    begins.join()
    begun = "a season was begun" if Season.objects.exists() else "no season was begun"
    print(f"wrote {wrote}, and {begun}")  # noqa: T201 - read by the test


def _write() -> str:
    from wholeball.store.models import Organisation  # noqa: PLC0415 - set up first

    with connection.cursor() as cursor:
        cursor.execute(f"PRAGMA busy_timeout = {PATIENCE}")
    try:
        with transaction.atomic():
            Organisation.objects.update(name="Fens")
    except OperationalError as refused:
        return f"nothing ({refused})"
    return "at once"


def _begin(organisation: "Organisation", account: "Account") -> None:
    from wholeball.usecases.begin_from import (  # noqa: PLC0415 - set up first
        begin_from_folder,
        begin_with_teams,
    )
    from wholeball.usecases.begin_season import begin_season  # noqa: PLC0415 - set up first

    said: dict[str, Any] = {
        "preset": "eight",
        "timezone": "Europe/London",
        "first_day": date(2027, 3, 1),
    }
    ways: dict[str, Callable[..., object]] = {
        "preset": partial(begin_season, **said),
        "teams": partial(begin_with_teams, data=b"team\nAsh\nBay\n", file="teams.csv", **said),
        "folder": partial(begin_from_folder, folder=EXAMPLE),
    }
    at = datetime(2026, 11, 26, 9, 5, tzinfo=UTC)
    ways[sys.argv[1]](organisation, name="Spring", by=account, at=at)
    connection.close()


if __name__ == "__main__":
    django.setup()
    main()
