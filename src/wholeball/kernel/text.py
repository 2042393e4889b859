"""Tells which characters may not stand in a name or a sentence that people will read."""

from typing import Final, Literal

_DIRECTION: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_ALLOWED: Final = frozenset("\n\t")


def unreadable(text: str) -> tuple[Literal["control_char", "bidi_control"], str] | None:
    """Return the kind and the code point of the first character nobody can see, or None.

    A control character breaks pages and files; a direction override can turn a name or a
    score round. Names in any script, and emoji, are fine.
    """
    for character in text:
        if character in _DIRECTION:
            return "bidi_control", f"U+{ord(character):04X}"
        if (ord(character) < 32 or 127 <= ord(character) < 160) and character not in _ALLOWED:
            return "control_char", f"U+{ord(character):04X}"
    return None
