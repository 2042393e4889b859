"""Selects from a pool as RFC 3797 section 4 does: MD5 over the key between two-byte counters."""

import hashlib
from collections.abc import Sequence
from itertools import count
from math import ceil, comb, log2


def digest(key: str, index: int) -> bytes:
    """Return the MD5 of selection `index`, from 0; the key stands between its two bytes twice."""
    bounds = index.to_bytes(2, "big")
    return hashlib.md5(bounds + key.encode() + bounds, usedforsecurity=False).digest()


def selected(key: str, *, pool: int, wanted: int) -> list[int]:
    """Return the first `wanted` numbers drawn from 1 to `pool`."""
    left = list(range(1, pool + 1))
    chosen: list[int] = []
    for index in count():
        if len(chosen) == wanted:
            break
        number = int.from_bytes(digest(key, index), "big") % len(left)
        chosen.append(left.pop(number))
    return chosen


def entropy_bits(*, pool: int, wanted: int) -> int:
    """Return the bits needed for every set of `wanted` to be possible (section 3.3)."""
    return ceil(log2(comb(pool, wanted)))


def counted_swaps(n: int, choices: Sequence[int]) -> tuple[int, ...]:
    """Shuffle naively: swap each place with any place, as a fair shuffle must not."""
    places = list(range(n))
    for place, chosen in enumerate(choices):
        places[place], places[chosen] = places[chosen], places[place]
    return tuple(places)
