"""Times the coordinator's day of 160 teams against the page of one pool's standings.

Both are asked of the site by a browser that is signed in, in turn, on one season in a database on
the disk: 500 games of 160 teams, each with a log, a certified result and a crew.
"""

import os
import secrets
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import TYPE_CHECKING, Final

import django
from django.core.management import call_command

from benchmarks.in_turn import Measured
from benchmarks.season_folder import write_folder
from wholeball.kernel.identity import GameId

if TYPE_CHECKING:
    from django.test import Client

    from wholeball.store.record import DatabaseRecord

EVENTS: Final = 30
REPETITIONS: Final = 7
AT_MOST: Final = 3.0
NOW: Final = datetime(2026, 11, 26, 12, tzinfo=UTC)
HERE: Final = "/desk/fen/large/"
DAY: Final = f"{HERE}today/?day=2026-09-16"
TABLE: Final = f"{HERE}standings/"


def measure() -> list[Measured]:
    """Return the ratios of the medians of both pages, by what is kept of the season before."""
    with TemporaryDirectory() as place:
        client, record = _signed_in(Path(place))
        writes = _writes(record)
        return [
            _compared(client, "kept as it was read", lambda: None),
            _compared(client, "the first after an entry", lambda: next(writes)),
            _compared(client, "nothing kept", _forget),
        ]


def _compared(client: "Client", what: str, before: Callable[[], object]) -> Measured:
    times: dict[str, list[float]] = {DAY: [], TABLE: []}
    for _ in range(REPETITIONS):
        for path, taken in times.items():
            before()
            taken.append(_asked(client, path))
    day, table = median(times[DAY]), median(times[TABLE])
    told = f"today, 160 teams and 500 games, {what}, {day * 1000:.0f} ms"
    return told, f"standings page, as much kept, {table * 1000:.0f} ms", day / table, AT_MOST


def _writes(record: "DatabaseRecord") -> Iterator[object]:
    """Open a game's result again and certify it, in turn, one entry each time."""
    from wholeball.usecases.certify_game import certify_game, reopen_game  # noqa: PLC0415
    from wholeball.usecases.rising_ids import rising_ids  # noqa: PLC0415
    from wholeball.usecases.seal_entries import Author  # noqa: PLC0415

    game = GameId(min(record.names("games")).removesuffix(".jsonl"))
    for second in count():
        wall = int(NOW.timestamp() * 1000) + 1000 * second
        by = Author(name="Kim", wall=wall, ids=rising_ids(wall, secrets.randbits))
        write = certify_game if second % 2 else reopen_game
        yield write(record, game, by=by, reason="A goal was left out.")


def _forget() -> None:
    """Drop all that the process and the database keep of what was computed."""
    from wholeball.store import derived  # noqa: PLC0415 - once Django is up

    derived.forget()


def _asked(client: "Client", path: str) -> float:
    begun = perf_counter()
    answer = client.get(path)
    taken = perf_counter() - begun
    assert answer.status_code == 200, (path, answer.status_code)  # noqa: S101 - or it says nothing
    return taken


def _signed_in(place: Path) -> "tuple[Client, DatabaseRecord]":
    """Return a browser of somebody who coordinates a large season in a new database."""
    os.environ.pop("DATABASE_URL", None)
    os.environ["WHOLEBALL_DATA"] = str(place)
    os.environ["DJANGO_SETTINGS_MODULE"] = "wholeball.site.settings"
    django.setup()
    from django.conf import settings  # noqa: PLC0415 - once Django is up
    from django.db import connection  # noqa: PLC0415
    from django.test import Client  # noqa: PLC0415

    from wholeball.store.models import Account, Membership, Organisation, Season  # noqa: PLC0415
    from wholeball.store.record import DatabaseRecord  # noqa: PLC0415
    from wholeball.store.writing import Writer  # noqa: PLC0415

    settings.ALLOWED_HOSTS = ["testserver"]
    connection.close()
    connection.settings_dict["NAME"] = str(place / "today.sqlite3")
    call_command("migrate", verbosity=0)
    organisation = Organisation.objects.create(slug="fen", name="Fen")
    season = Season.objects.create(organisation=organisation, slug="large", name="Large")
    folder = place / "season"
    folder.mkdir()
    write_folder(folder, EVENTS)
    record = DatabaseRecord(season, Writer(account=None, at=NOW))
    files = {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
    record.write(files)
    account = Account.objects.create_user("kim@fen.invalid")
    Membership.objects.create(organisation=organisation, account=account, role="coordinator")
    client = Client()
    client.force_login(account)
    return client, record
