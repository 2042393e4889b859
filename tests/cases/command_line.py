"""Says what a command typed at the terminal comes to, and writes a rulebook for it to read."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple, TypeAlias


class Told(NamedTuple):
    """What a command ended with and printed."""

    status: int
    out: str
    err: str


Run: TypeAlias = Callable[..., Told]
"""Types a command, word by word."""


def written(folder: Path, text: str) -> Path:
    """Write a rulebook over the Laws of 2025/26 and return its file."""
    file = folder / "house.toml"
    file.write_text(f'base = "laws-2025-26"\n{text}')
    return file
