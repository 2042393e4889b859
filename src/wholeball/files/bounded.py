"""Asks the disk for no more than was agreed: regular files only, and only so many bytes."""

import os
import stat
from errno import EINVAL
from pathlib import Path


def read_at_most(path: Path, most: int) -> bytes:
    """Return a file's bytes, at most one more than `most`, so that a reader can refuse it.

    Raises:
        OSError: it cannot be read, or is a folder, a device or a pipe.
    """
    with os.fdopen(_opened(path), "rb") as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise OSError(EINVAL, "It is no regular file", str(path))
        return file.read(most + 1)


def is_there(path: Path) -> bool:
    """Tell whether something stands at a path; a name no disk can hold is not there."""
    try:
        path.lstat()
    except (OSError, ValueError):
        return False
    return True


def _opened(path: Path) -> int:
    """Open without waiting for a pipe's other end."""
    try:
        return os.open(path, os.O_RDONLY | os.O_NONBLOCK)
    except ValueError as error:
        raise OSError(EINVAL, "It is no file's name", str(path)) from error
