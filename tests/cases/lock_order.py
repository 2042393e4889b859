"""Begins a season while another thread, which holds the lock of writers, comes to the database.

It runs as `python -m cases.lock_order`, on a new SQLite file as the site has it.
"""

import threading
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Final

import django
from django.core.management import call_command
from django.db import OperationalError, connection, transaction

if TYPE_CHECKING:
    from wholeball.store.models import Account, Organisation

HEAD_START: Final = 1.0
"""Seconds until the thread that begins a season is sure to wait for the lock."""
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
    from wholeball.usecases.begin_season import begin_season  # noqa: PLC0415 - set up first

    begin_season(
        organisation,
        name="Spring",
        preset="eight",
        timezone="Europe/London",
        first_day=date(2027, 3, 1),
        by=account,
        at=datetime(2026, 11, 26, 9, 5, tzinfo=UTC),
    )
    connection.close()


if __name__ == "__main__":
    django.setup()
    main()
