"""Tells in words where the disk refuses to give or to keep one file."""

from collections.abc import Iterator
from contextlib import contextmanager

from wholeball.kernel.faults import WholeballError


@contextmanager
def told_of_disk(path: str, what: str) -> Iterator[None]:
    """Say of a refusal that the file at a path cannot be `what`: read, or written.

    Raises:
        WholeballError: the disk refused.
    """
    try:
        yield
    except OSError as error:
        raise WholeballError(
            f"{path} cannot be {what}: {error.strerror}.",
            fix="Nothing was changed. Check the disk and the folder's permissions.",
            code="storage",
        ) from error
