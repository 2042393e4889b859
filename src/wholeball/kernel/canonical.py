"""Writes a value as the one sequence of bytes that stands for it, and hashes that."""

import hashlib
import json
from typing import TypeAlias

Plain: TypeAlias = "bool | int | str | list[Plain] | dict[str, Plain] | None"


def canonical_bytes(value: Plain) -> bytes:
    """Return UTF-8 JSON with sorted keys and no spaces; whole numbers only.

    Raises:
        TypeError: a float is inside; two machines may write it differently.
    """
    _refuse_floats(value)
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return text.encode("utf-8")


def digest(value: Plain) -> str:
    """Return the SHA-256 of the canonical bytes, 64 hexadecimal digits."""
    return hashlib.sha256(canonical_bytes(value)).hexdigest()


def _refuse_floats(value: object) -> None:
    if isinstance(value, float):
        message = f"canonical JSON holds whole numbers only, got {value!r}"
        raise TypeError(message)
    if isinstance(value, dict):
        _refuse_floats(list(value.values()))
    elif isinstance(value, list):
        for item in value:
            _refuse_floats(item)
