"""Serves the site as people do, in a process of its own, from an empty folder."""

import atexit
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Final

PATIENCE: Final = 120.0
"""Seconds until an empty database has its tables, on a machine that has other work."""
LINK: Final = re.compile(r"/invitation/(\S+)/")


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """A site that is being served: where, from which folder, by which process, what it said."""

    address: str
    data: Path
    process: subprocess.Popen[str]
    said: str

    @property
    def first_link(self) -> str:
        """The administrator's link."""
        found = LINK.search(self.said)
        assert found is not None, self.said
        return f"{self.address}{found[0]}"


def environment_of(data: Path, **more: str) -> dict[str, str]:
    """Return the environment of a command of the site; nothing of the tests' own counts.

    Searches take their turn: tests that run side by side leave no machine idle.
    """
    kept = {
        key: value
        for key, value in os.environ.items()
        if not key.startswith("WHOLEBALL_") and key != "DATABASE_URL"
    }
    return {**kept, "WHOLEBALL_DATA": str(data), "WHOLEBALL_SEARCHES": "shared", **more}


def typed(data: Path, *words: object, **more: str) -> subprocess.CompletedProcess[str]:
    """Return what came of a command that was typed."""
    return subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-m", "wholeball", *map(str, words)],
        env=environment_of(data, **more),
        capture_output=True,
        text=True,
        check=False,
    )


def begun(data: Path) -> Path:
    """Put into a new folder what a first start makes, so that the next one is quick; return it."""
    data.mkdir(parents=True, exist_ok=True)
    shutil.copytree(_tables(), data, dirs_exist_ok=True)
    return data


@cache
def _tables() -> Path:
    """Return a folder whose database has its tables and no rows."""
    made = Path(tempfile.mkdtemp(prefix="wholeball-tables-"))
    atexit.register(shutil.rmtree, made, ignore_errors=True)
    subprocess.run(
        [sys.executable, "-m", "django", "migrate", "--verbosity", "0"],
        env=environment_of(made, DJANGO_SETTINGS_MODULE="wholeball.site.settings"),
        check=True,
    )
    return made


@contextmanager
def served(data: Path, **more: str) -> Iterator[Served]:
    """Serve the site from a folder until the block ends."""
    port = _free_port()
    heard = data.with_name(f"{data.name}-{port}.txt")
    with heard.open("w") as file:
        process = subprocess.Popen(  # noqa: S603 - our own program
            [sys.executable, "-m", "wholeball", "serve", "--port", str(port)],
            env=environment_of(data, **more),
            stdout=file,
            stderr=subprocess.STDOUT,
            text=True,
        )
    try:
        said = _first_words(process, heard, port)
        yield Served(address=f"http://127.0.0.1:{port}", data=data, process=process, said=said)
    finally:
        process.terminate()
        process.wait(10)


def _first_words(process: subprocess.Popen[str], heard: Path, port: int) -> str:
    """Return what is printed until the port answers."""
    ends = time.monotonic() + PATIENCE
    while time.monotonic() < ends and process.poll() is None:
        if "is served at" in heard.read_text() and _answers(port):
            return heard.read_text()
        time.sleep(0.1)
    raise AssertionError(f"the site did not start: {heard.read_text()}")


def _answers(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
