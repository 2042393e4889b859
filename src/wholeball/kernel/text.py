"""Tells which characters may not stand in a name or a sentence that people will read."""

import re
from typing import Final, Literal

_DIRECTION: Final = re.compile("[\u202a-\u202e\u2066-\u2069]")
_HIDDEN: Final = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]"
)


def unreadable(text: str) -> tuple[Literal["control_char", "bidi_control"], str] | None:
    """Return the kind and the code point of the first character nobody can see, or None.

    A control character or a line separator breaks pages and files; a direction override can
    turn a name or a score round. Names in any script, and emoji, are fine.
    """
    found = _HIDDEN.search(text)
    if found is None:
        return None
    kind: Literal["control_char", "bidi_control"] = (
        "bidi_control" if _DIRECTION.match(found[0]) else "control_char"
    )
    return kind, f"U+{ord(found[0]):04X}"


def is_text(typed: str) -> bool:
    """Tell whether what was typed is whole letters, not bytes of some other encoding."""
    try:
        typed.encode()
    except UnicodeEncodeError:
        return False
    return True
