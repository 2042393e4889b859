"""Says who writes into a log at the terminal, when, and under which identities."""

import secrets
from datetime import UTC, datetime

from wholeball.usecases.rising_ids import rising_ids
from wholeball.usecases.seal_entries import Author, author_name


def asked_name(by: str) -> str:
    """Return the name that was given, or ask for it; refused where it does not do.

    Raises:
        WholeballError: it is empty, too long, or has what nobody can see.
        EOFError: the input ended before it was given.
    """
    return author_name(by or input("Your name: "))


def author(name: str) -> Author:
    """Return an author by the clock of this machine."""
    wall = int(datetime.now(UTC).timestamp() * 1000)
    return Author(name=name, wall=wall, ids=rising_ids(wall, secrets.randbits))
