"""Tells how little room is left on the disk, before it is full."""

import shutil
from pathlib import Path
from typing import Final

LEAST: Final = 200_000_000
"""Bytes that should stay free: a backup of a large season, and the log of its database."""
_MEGABYTE: Final = 1_000_000


def room_left(folder: Path) -> str:
    """Return how little room is left where it is too little: "38 MB"; else nothing."""
    free = shutil.disk_usage(folder).free if folder.exists() else LEAST
    return "" if free >= LEAST else f"{free // _MEGABYTE:,} MB"
