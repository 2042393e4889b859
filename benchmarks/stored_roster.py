"""Times importing 5,000 players into a season in the database, from the bytes to the disk.

The reference reads the same bytes with csv.reader, makes HMAC-SHA-256 of each id by hmac.digest,
and puts the rows into the same table of the same database by one executemany, in one
transaction; it judges nothing. The subject does all that a page does: it reads and checks the
season and the list, makes the codes, stores the rows, and notes what it changed.
"""

import csv
import hmac
import io
import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import TYPE_CHECKING, Final

import django
from django.core.management import call_command

from benchmarks.in_turn import Measured
from benchmarks.rosters import KEY, TEAM, roster
from wholeball.files.given_list import GivenList
from wholeball.files.student_ids import IdKey
from wholeball.usecases.add_to_roster import add_to_roster
from wholeball.usecases.start_season import start_season

if TYPE_CHECKING:
    from wholeball.store.models import Season

ROWS: Final = 5_000
REPETITIONS: Final = 9
AT_MOST: Final = 8.0
DAY: Final = date(2026, 9, 1)
NOW: Final = datetime(2026, 9, 1, 12, tzinfo=UTC)
INSERT: Final = (
    "INSERT INTO store_rosterrow "
    "(season_id, position, team, number, name, captain, person, id_end, added) "
    "VALUES (?, ?, ?, '', ?, '', ?, ?, ?)"
)


def measure() -> list[Measured]:
    """Return the ratio of the medians, both run in turn on one database on the disk."""
    data = roster(ROWS)
    reference: list[float] = []
    subject: list[float] = []
    with _database():
        for turn in range(REPETITIONS):
            reference.append(_insert(_season(f"Reference {turn}"), data))
            subject.append(_import(_season(f"Subject {turn}"), data))
    ratio = median(subject) / median(reference)
    what = f"import {ROWS:,} roster rows into the database, {median(subject) * 1000:.0f} ms"
    against = f"csv + HMAC + one executemany, {median(reference) * 1000:.0f} ms"
    return [(what, against, ratio, AT_MOST)]


@contextmanager
def _database() -> Iterator[None]:
    """Have a new SQLite database in a place of its own, as the site would."""
    with TemporaryDirectory() as place:
        os.environ.pop("DATABASE_URL", None)
        os.environ["WHOLEBALL_DATA"] = place
        os.environ["DJANGO_SETTINGS_MODULE"] = "wholeball.site.settings"
        django.setup()
        call_command("migrate", verbosity=0)
        yield


def _season(name: str) -> "Season":
    """Return a season with one team, whose roster may be of any size."""
    from wholeball.store.models import Organisation, Season  # noqa: PLC0415 - once Django is up
    from wholeball.store.record import DatabaseRecord  # noqa: PLC0415
    from wholeball.store.writing import Writer  # noqa: PLC0415

    organisation, _ = Organisation.objects.get_or_create(slug="fen", defaults={"name": "Fen"})
    slug = name.lower().replace(" ", "-")
    season = Season.objects.create(organisation=organisation, slug=slug, name=name)
    record = DatabaseRecord(season, Writer(account=None, at=NOW))
    start_season(record, preset="eight", timezone="Europe/London", first_day=DAY)
    book = record.read("rulebook.toml", 1_000_000)
    assert b"maximum = 15" in book  # noqa: S101 - or the roster would be too large
    book = book.replace(b"maximum = 15", b'maximum = "no_limit"')
    record.write({"rulebook.toml": book, "teams.csv": f"team,pool\n{TEAM},A\n".encode()})
    return season


def _insert(season: "Season", data: bytes) -> float:
    from django.db import connection, transaction  # noqa: PLC0415 - once Django is up

    start = perf_counter()
    rows = list(csv.reader(io.StringIO(data.decode(), newline="")))[1:]
    added = DAY.isoformat()
    cells = [
        (
            season.pk,
            position,
            TEAM,
            name,
            hmac.digest(KEY, student.encode(), "sha256").hex(),
            student[-3:],
            added,
        )
        for position, (student, name, *_) in enumerate(rows, start=2)
    ]
    connection.ensure_connection()
    with transaction.atomic():
        connection.connection.executemany(INSERT, cells)
    taken = perf_counter() - start
    _counted(season)
    return taken


def _import(season: "Season", data: bytes) -> float:
    from wholeball.store.record import DatabaseRecord  # noqa: PLC0415 - once Django is up
    from wholeball.store.writing import Writer  # noqa: PLC0415

    start = perf_counter()
    record = DatabaseRecord(season, Writer(account=None, at=NOW, version=season.version))
    add_to_roster(record, GivenList("list.csv", data), team=TEAM, key=IdKey(KEY), day=DAY)
    taken = perf_counter() - start
    _counted(season)
    return taken


def _counted(season: "Season") -> None:
    from wholeball.store.models.people_rows import RosterRow  # noqa: PLC0415 - once Django is up

    stored = RosterRow.objects.filter(season=season).count()
    assert stored == ROWS  # noqa: S101 - what was timed is all the rows
