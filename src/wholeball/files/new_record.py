"""Writes the first texts of a record, where nothing stands yet."""

from collections.abc import Mapping
from collections.abc import Set as AbstractSet

from wholeball.kernel.faults import WholeballError
from wholeball.league.record import LeagueRecord


def write_new(
    record: LeagueRecord,
    contents: Mapping[str, bytes],
    *,
    private: AbstractSet[str] = frozenset(),
) -> None:
    """Begin a record that is not there yet, or is empty, with these texts.

    Only their owner may ever read those named in `private`.

    Raises:
        WholeballError: something is there already, or it cannot be kept.
    """
    if not _is_free(record):
        raise WholeballError(
            f"{record.place} is there already and not empty.",
            fix="Nothing was written. Name another folder.",
            code="path",
        )
    record.write(contents, private=private)


def _is_free(record: LeagueRecord) -> bool:
    """Tell whether nothing stands there; where a file or a broken link does, nothing can."""
    try:
        return not record.names("")
    except (NotADirectoryError, FileNotFoundError):
        return False
