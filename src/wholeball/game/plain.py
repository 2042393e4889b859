"""Writes a state as plain values, for JSON and for every other fold to be held against."""

from dataclasses import fields, is_dataclass
from typing import Any

from wholeball.game.state import GameState
from wholeball.kernel import canonical


def plain(state: GameState) -> dict[str, Any]:
    """Return a state's parts by name, records as objects, and pairs as lists of two."""
    parts = {
        one.name: _plain(getattr(state, one.name))
        for one in fields(state)
        if one.name not in ("going_on", "now")
    }
    opened = [asked.code for asked in state.open_questions]
    return {"at": list(state.now), **parts, "open": opened}


def digest(state: GameState) -> str:
    """Return the SHA-256 of a state's canonical bytes: what a certification is of."""
    return canonical.digest(plain(state))


def _plain(value: object) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: _plain(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value
