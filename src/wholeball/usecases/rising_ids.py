"""Makes the identities of new entries: they rise, so that entries of one second keep their order."""

from collections.abc import Callable, Iterator
from typing import Final

_MOST: Final = 4096
"""How many one moment has: what the counter's twelve bits hold."""


def rising_ids(wall: int, chance: Callable[[int], int]) -> Iterator[str]:
    """Yield identities of version 7: the time in milliseconds, a counter, and chance.

    `chance` returns so many random bits as it is asked for.
    Source: RFC 9562, sections 5.7 and 6.2 (fixed bit-length dedicated counter).
    """
    for count in range(_MOST):
        number = wall << 80 | 7 << 76 | count << 64
        number |= 2 << 62 | chance(62)
        text = f"{number:032x}"
        yield "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))
