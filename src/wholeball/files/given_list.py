"""Reads a list that somebody hands in: a file of any name, outside every season."""

from pathlib import Path
from typing import Final, NamedTuple

from wholeball.files.archive import MOST_PACKED
from wholeball.files.bounded import read_at_most
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import WholeballError

MOST: Final = max(MOST_BYTES, MOST_PACKED)


class GivenList(NamedTuple):
    """A list as it was handed in; it may have one byte more than `MOST`, to be refused for."""

    name: str
    data: bytes


def read_list(file: Path) -> GivenList:
    """Return the list of a file.

    Raises:
        WholeballError: it cannot be read.
    """
    try:
        return GivenList(file.name, read_at_most(file, MOST))
    except OSError as error:
        raise WholeballError(
            f"{file} cannot be read: {error.strerror}.",
            fix="Nothing was changed. Name a CSV file or an .xlsx workbook.",
            code="missing_file",
        ) from error
