"""Reads a rulebook: of a season, from a file, or from the editions of the Laws by name."""

from functools import lru_cache
from pathlib import Path
from typing import Final

from wholeball.files.bounded import is_there, read_at_most
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.toml import MOST_BYTES
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.editions import edition, edition_keys
from wholeball.rulebook.load import Loaded, load

FILE: Final = "rulebook.toml"
"""The rulebook of a season, in its folder."""
_MOST_KEPT: Final = 32


def read_rulebook(name: str) -> Loaded:
    """Return the rulebook of a file, or an edition of the Laws such as laws-2025-26.

    Raises:
        InputFaults: everything that is wrong with the file.
        WholeballError: there is no such file and no such edition.
    """
    path = Path(name)
    if not is_there(path) and name in edition_keys():
        return Loaded(rulebook=edition(name), remarks=())
    try:
        return load(read_at_most(path, MOST_BYTES), file=path.name)
    except OSError as error:
        raise _unread(name, error) from error


def rulebook_of(record: LeagueRecord) -> Loaded:
    """Return the rulebook of a season.

    Raises:
        InputFaults: everything that is wrong with it.
        WholeballError: it cannot be read.
    """
    try:
        return load_once(record.read(FILE, MOST_BYTES), file=FILE)
    except OSError as error:
        raise _unread(record.called(FILE), error) from error


@lru_cache(maxsize=_MOST_KEPT)
def load_once(data: bytes, *, file: str) -> Loaded:
    """Return what `load` makes of a file, which it made before of the same bytes.

    Raises:
        InputFaults: everything that is wrong with it.
    """
    return load(data, file=file)


def _unread(name: str, error: OSError) -> WholeballError:
    return WholeballError(
        f"{name} cannot be read: {error.strerror}.",
        fix="Name a rulebook's file, or an edition such as laws-2025-26.",
        code="missing_file",
    )
