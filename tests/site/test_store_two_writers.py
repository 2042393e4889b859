"""Tests that of two who write at once one is told what the other changed, and neither waits for ever."""

import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from django.db import connection

from cases.served_site import environment_of
from cases.stored import a_season, written_by
from wholeball.kernel.faults import WholeballError
from wholeball.store import writing
from wholeball.store.models import Season

TESTS = Path(__file__).resolve().parents[1]
ROUNDS = 8
TEAMS = b"team,pool\nReds,A\nBlues,A\n"


@pytest.mark.django_db(transaction=True)
def test_of_two_threads_that_looked_at_one_version_the_second_is_told_what_changed() -> None:
    for number in range(ROUNDS):
        assert _outcomes(a_season(f"Season-{number}")) == ["conflict", "written"]


@pytest.mark.django_db(transaction=True)
def test_of_two_processes_that_looked_at_one_version_the_second_is_told_what_changed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    if connection.vendor == "sqlite":
        pytest.skip("SQLite is written by one process alone")
    monkeypatch.setattr(writing, "LOCK", _NoLock())
    for number in range(ROUNDS):
        assert _outcomes(a_season(f"Season-{number}")) == ["conflict", "written"]


class _NoLock(AbstractContextManager[None]):
    """Keeps nobody apart, as the lock of another process does."""

    def __exit__(self, *_: object) -> None:
        """Let go of nothing."""


def _outcomes(season: Season) -> list[str]:
    """Return what comes of two writes of one file by writers who looked at version 1."""
    written_by(season).write({"teams.csv": TEAMS})
    ready = threading.Barrier(2)

    def write(pool: str) -> str:
        try:
            record = written_by(season, version=1)
            ready.wait(10)
            record.write({"teams.csv": TEAMS.replace(b"Reds,A", f"Reds,{pool}".encode())})
        except WholeballError as refused:
            return refused.code
        finally:
            connection.close()
        return "written"

    with ThreadPoolExecutor(2) as pool:
        return sorted(pool.map(write, ("B", "C")))


@pytest.mark.parametrize("way", ["preset", "teams", "folder"])
def test_whoever_begins_a_season_and_whoever_writes_one_do_not_wait_for_each_other(
    tmp_path: Path, way: str
) -> None:
    done = subprocess.run(  # noqa: S603 - our own module
        [sys.executable, "-m", "cases.lock_order", way],
        cwd=TESTS,
        env=environment_of(tmp_path, DJANGO_SETTINGS_MODULE="wholeball.site.settings"),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.stdout, done.stderr) == ("wrote at once, and a season was begun\n", "")
