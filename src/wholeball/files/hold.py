"""Holds a season folder against other writers while one reads, judges and writes."""

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def held_folder(folder: Path) -> Iterator[None]:
    """Let one writer at a time at a folder; others wait, in this process and in any other.

    The log of a game is held by the same lock. A folder that is not there is left to its reader.
    """
    if not folder.is_dir():
        yield
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX)
        yield
    finally:
        os.close(descriptor)
