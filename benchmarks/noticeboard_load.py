"""Asks a served noticeboard 20 times a second, idle and then while a timetable is planned.

Both halves ask the same server. The search is one that the site runs itself, as its page of
tasks would start it: the worker's thread, its process, and how far it is in the database.
"""

import http.client
import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from threading import Event, Thread
from time import monotonic, perf_counter, sleep
from typing import TYPE_CHECKING, Final

from benchmarks.search_season import texts

if TYPE_CHECKING:
    from wholeball.store.models import Account, Search, Season

A_SECOND: Final = 20
SECONDS: Final = 60
MOST: Final = 3.0
"""Of the slowest in a hundred while it plans, to the same idle."""
PATIENCE: Final = 120.0
PAGES: Final = ("", "standings/1/", "calendar/", "results/", "teams/Team%20001/", "rules/")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One request: how long its answer took from when it was due, and its status."""

    seconds: float
    status: int


def load(data: Path, root: str) -> bool:
    """Print both halves, and tell whether the second is within bounds."""
    with _served(data) as port:
        for page in PAGES:
            _ask(port, f"{root}{page}", "")
        idle = _half(port, root)
        with _searching() as searches:
            busy = _half(port, root)
    slow = _slowest(busy) / _slowest(idle)
    errors = sum(one.status not in (200, 304) for one in (*idle, *busy))
    for what, half in (("idle", idle), ("while it plans", busy)):
        print(
            f"{what}: {len(half)} requests, middle {_middle(half) * 1000:.1f} ms, "
            f"slowest of a hundred {_slowest(half) * 1000:.1f} ms"
        )
    print(f"searches beside it: {len(searches)}, the last one {searches[-1].state}")
    print(f"load of the machine: {', '.join(f'{one:.1f}' for one in os.getloadavg())}")
    verdict = "within" if slow <= MOST else "ABOVE"
    print(f"p99 while it plans: {slow:.2f} x idle ({verdict} {MOST:g}); errors: {errors}")
    return slow <= MOST and not errors


def _half(port: int, root: str) -> list[Asked]:
    """Ask at a steady pace, half of it with the tag of the page; late answers count from when due."""
    tags = {page: _ask(port, f"{root}{page}", "")[1] for page in PAGES}
    begins = perf_counter()
    with ThreadPoolExecutor(max_workers=2 * A_SECOND) as pool:
        sent = []
        for number in range(A_SECOND * SECONDS):
            due = begins + number / A_SECOND
            sleep(max(due - perf_counter(), 0))
            page = PAGES[number % len(PAGES)]
            tag = tags[page] if number // len(PAGES) % 2 else ""
            sent.append(pool.submit(_timed, port, f"{root}{page}", tag, due))
        return [one.result() for one in sent]


def _timed(port: int, address: str, tag: str, due: float) -> Asked:
    status, _ = _ask(port, address, tag)
    return Asked(seconds=perf_counter() - due, status=status)


def _ask(port: int, address: str, tag: str) -> tuple[int, str]:
    """Return the status of an answer and its tag; an answer that does not come has status 0."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    try:
        connection.request("GET", address, headers={"If-None-Match": tag} if tag else {})
        answer = connection.getresponse()
        answer.read()
        return answer.status, answer.headers.get("ETag", "")
    except (OSError, http.client.HTTPException):
        return 0, ""
    finally:
        connection.close()


def _slowest(half: list[Asked]) -> float:
    return sorted(one.seconds for one in half)[int(len(half) * 0.99)]


def _middle(half: list[Asked]) -> float:
    return sorted(one.seconds for one in half)[len(half) // 2]


@contextmanager
def _served(data: Path) -> Iterator[int]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = int(probe.getsockname()[1])
    process = subprocess.Popen(  # noqa: S603 - our own program
        [sys.executable, "-m", "wholeball", "serve", "--port", str(port)],
        env={**os.environ, "WHOLEBALL_DATA": str(data)},
        stdout=subprocess.DEVNULL,
    )
    ends = monotonic() + PATIENCE
    try:
        while _ask(port, "/", "")[0] != 200:
            if process.poll() is not None or monotonic() > ends:
                message = "the site did not start"
                raise RuntimeError(message)
            sleep(0.2)
        yield port
    finally:
        process.terminate()
        process.wait(10)


@contextmanager
def _searching() -> Iterator[list["Search"]]:
    """Have the site search for the timetable of a large season until the block ends.

    Where a search ends before, the next one begins. Yields those that were begun.
    """
    from wholeball.store.searches import ask_to_stop  # noqa: PLC0415 - once settings are named

    season, account = _to_plan()
    begun, done = [_begin(season, account)], Event()

    def keep_on() -> None:
        while not done.wait(0.5):
            begun[-1].refresh_from_db()
            if begun[-1].state != "running":
                begun.append(_begin(season, account))

    keeper = Thread(target=keep_on)
    keeper.start()
    try:
        yield begun
    finally:
        done.set()
        keeper.join()
        begun[-1].refresh_from_db()
        ask_to_stop(begun[-1])


def _to_plan() -> "tuple[Season, Account]":
    """Put a season to be planned into the database, and who asks for its timetable."""
    from wholeball.store.models import Account, Organisation, Season  # noqa: PLC0415
    from wholeball.store.record import DatabaseRecord  # noqa: PLC0415
    from wholeball.store.writing import Writer  # noqa: PLC0415

    season = Season.objects.create(
        organisation=Organisation.objects.get(slug="bench"), slug="spring", name="Spring"
    )
    DatabaseRecord(season, Writer(account=None, at=datetime.now(UTC))).write(texts())
    return season, Account.objects.create_user("kim@bench.invalid")


def _begin(season: "Season", account: "Account") -> "Search":
    """Ask for a timetable as its page does, and wait until the search is under way."""
    from wholeball.desk.tasks import search as run  # noqa: PLC0415
    from wholeball.store.searches import begin_search  # noqa: PLC0415

    asked = {"seconds": 10 * SECONDS, "happened": {}}
    now = datetime.now(UTC)
    search = begin_search(season, account, kind="plan", asked=asked, base="", at=now)
    run.enqueue(search.pk)
    ends = monotonic() + PATIENCE
    while search.state != "running":
        if monotonic() > ends:
            message = f"the search is {search.state}, and was to be running"
            raise RuntimeError(message)
        sleep(0.2)
        search.refresh_from_db()
    return search
