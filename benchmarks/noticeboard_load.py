"""Asks a served noticeboard 20 times a second, idle and then while a timetable is planned."""

import http.client
import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from time import monotonic, perf_counter, sleep
from typing import Final

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
        with _planning():
            busy = _half(port, root)
    slow = _slowest(busy) / _slowest(idle)
    errors = sum(one.status not in (200, 304) for one in (*idle, *busy))
    for what, half in (("idle", idle), ("while it plans", busy)):
        print(
            f"{what}: {len(half)} requests, middle {_middle(half) * 1000:.1f} ms, "
            f"slowest of a hundred {_slowest(half) * 1000:.1f} ms"
        )
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
def _planning() -> Iterator[None]:
    """Plan a large season in a child process until the block ends."""
    child = get_context("spawn").Process(target=plan_on, daemon=False)
    child.start()
    sleep(3)
    if not child.is_alive():
        message = "the planner ended before the requests began"
        raise RuntimeError(message)
    try:
        yield
        if not child.is_alive():
            message = "the planner ended before the requests did"
            raise RuntimeError(message)
    finally:
        child.terminate()
        child.join(10)


def stand_back() -> None:
    """Let this process work only while nobody else wants to, as far as the system has a word for it."""
    if hasattr(os, "SCHED_IDLE"):
        os.sched_setscheduler(0, os.SCHED_IDLE, os.sched_param(0))
    else:
        os.nice(19)


def plan_on() -> None:
    """Plan a season of some hundred games for longer than the requests take."""
    from benchmarks.instances import SIZES, season  # noqa: PLC0415 - in the child alone
    from wholeball.solvers.timetable.budget import Budget  # noqa: PLC0415
    from wholeball.solvers.timetable.plan import plan  # noqa: PLC0415

    stand_back()
    ends = monotonic() + 3 * SECONDS
    while monotonic() < ends:
        plan(
            season(SIZES["L"]),
            Budget(seconds=2 * SECONDS, workers=max((os.cpu_count() or 2) - 1, 1)),
        )
