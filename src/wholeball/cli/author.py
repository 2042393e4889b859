"""Says who writes into a log at the terminal, when, and under which identities."""

import secrets
from collections.abc import Iterator
from datetime import UTC, datetime

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
    return Author(name=name, wall=wall, ids=_ids(wall))


def _ids(wall: int) -> Iterator[str]:
    """Yield identities of version 7: the time in milliseconds, a counter, and chance.

    They rise, so that entries of one second stand in the order of the card.
    Source: RFC 9562, sections 5.7 and 6.2 (fixed bit-length dedicated counter).
    """
    for count in range(4096):
        number = wall << 80 | 7 << 76 | count << 64
        number |= 2 << 62 | secrets.randbits(62)
        text = f"{number:032x}"
        yield "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))
