"""Times adding 100,000 players to a roster against reading their rows and making their codes.

The reference parses the same bytes with csv.reader and makes HMAC-SHA-256 of each id by
hmac.digest, the one call that the standard library has for it; it judges and writes nothing.
The subject does all that the command does, from the file to rosters.csv on the disk.
"""

import csv
import hmac
import io
from datetime import date
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from benchmarks.in_turn import Measured
from wholeball.files.folder_record import FolderRecord
from wholeball.files.given_list import read_list
from wholeball.files.student_ids import IdKey
from wholeball.usecases.add_to_roster import add_to_roster
from wholeball.usecases.start_season import start_season

ROWS = 100_000
REPETITIONS = 7
AT_MOST = 3.0
KEY = b"a key for benchmarks, and for nothing else"
TEAM = "Paper Moths"
NAMES = ("Ana Brandreth", "Wim O'Tal", "No\u00ebl de la Rue", "Kit Ash-Low", "Bo")


def measure() -> list[Measured]:
    """Return the ratio of the medians, both run in turn."""
    data = roster()
    reference: list[float] = []
    subject: list[float] = []
    for _ in range(REPETITIONS):
        reference.append(_codes(data))
        subject.append(_add(data))
    ratio = median(subject) / median(reference)
    what = f"import {ROWS:,} roster rows, {median(subject) * 1000:.0f} ms"
    against = f"csv.reader + HMAC of the same rows, {median(reference) * 1000:.0f} ms"
    return [(what, against, ratio, AT_MOST)]


def roster(rows: int = ROWS) -> bytes:
    """Return a list of so many players, as a sign-up form exports it."""
    each = (f"{number:08},{NAMES[number % len(NAMES)]},,\n" for number in range(rows))
    return f"student_id,name,number,captain\n{''.join(each)}".encode()


def _codes(data: bytes) -> float:
    start = perf_counter()
    rows = list(csv.reader(io.StringIO(data.decode(), newline="")))
    codes = [hmac.digest(KEY, student.encode(), "sha256").hex() for student, *_ in rows]
    taken = perf_counter() - start
    assert len(codes) == ROWS + 1  # noqa: S101 - what was timed is all the rows
    return taken


def _add(data: bytes) -> float:
    with TemporaryDirectory() as place:
        season, file = Path(place) / "season", Path(place) / "list.csv"
        start_season(
            FolderRecord(season), preset="eight", timezone="Europe/London", first_day=_DAY
        )
        book = season / "rulebook.toml"
        free = book.read_text().replace("maximum = 15", 'maximum = "no_limit"')
        book.write_text(free)
        (season / "teams.csv").write_text(f"team,pool\n{TEAM},A\n")
        file.write_bytes(data)
        start = perf_counter()
        added = add_to_roster(
            FolderRecord(season), read_list(file), team=TEAM, key=IdKey(KEY), day=_DAY
        )
        taken = perf_counter() - start
    assert added.players == ROWS  # noqa: S101 - what was timed is all the rows
    return taken


_DAY = date(2026, 9, 1)
