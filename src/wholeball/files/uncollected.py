"""Lets the collector of cycles rest while much is read that holds none."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


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
