"""Finds the known name that a person most likely meant."""

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Final

_LONGEST: Final = 120
_MOST: Final = 60
_FEW: Final = 12


def nearest(name: str, known: Iterable[str], *, cutoff: float = 0.6) -> str | None:
    """Return the known name closest to `name`, or None where none is close.

    Closeness is difflib's ratio, `cutoff` or more; case does not matter. A name of more than
    120 characters is close to none.
    """
    by_lower = {item.lower(): item for item in known}
    if len(name) > _LONGEST:
        return None
    found = get_close_matches(name.lower(), by_lower, n=1, cutoff=cutoff)
    return by_lower[found[0]] if found else None


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """Return a cure in words: the nearest known name, or the first 12 of them, each once."""
    names = list(dict.fromkeys(known))
    best = nearest(name, names)
    if best is not None:
        return f"Did you mean {best}?"
    return (
        f"Use one of: {choices(names, most=_FEW)}."
        if names
        else "There is none to choose from."
    )


def choices(known: Iterable[str], *, most: int = _MOST) -> str:
    """Return known names as a list in words: the first `most`, and how many more there are."""
    names = list(known)
    more = f" and {len(names) - most:,} more" if len(names) > most else ""
    return ", ".join(names[:most]) + more
