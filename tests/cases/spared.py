"""Spares the collector of garbage what lives as long as a run of tests."""

import gc
from typing import Final

YOUNG: Final = 100_000
"""New objects before the collector looks at them; thousands of collected tests stay anyhow."""


def spare() -> None:
    """Let the collector pass over everything there is by now, and look at what comes less often."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(YOUNG, 50, 100)
