"""Lets the collector of cycles rest while much is read that holds none."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

LARGE: Final = 1_000_000
"""Bytes of a season's texts; what is made of fewer is gone through in no time."""


def set_aside() -> None:
    """Have the collector pass over all that there is by now, once it has gone through it.

    It goes through everything that has lived long again and again, while nobody is answered: a
    quarter of a second where a season of 500 games is kept. What is set aside is still freed
    when nobody holds it. What was set aside before is gone through once more, so that no cycle
    of it stays for ever.
    """
    gc.unfreeze()
    gc.collect()
    gc.freeze()


@contextmanager
def uncollected() -> Iterator[None]:
    """Keep the collector from going through all that was read so far, again and again.

    That took a third of the time of a large season, and found nothing: records hold only what
    was read before them. Whatever rests when it was called still rests afterwards.
    """
    is_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if is_on:
            gc.enable()
