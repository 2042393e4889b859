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


def visible(text: str, *, as_json: bool = False) -> str:
    r"""Return a text with the escape of each character nobody can see: "\x1b", "\u202e".

    Line ends and tabs stay. What is shown so can neither command a terminal nor turn a line.
    Escapes are always "\u001b" where it is JSON, which reads no others.
    """
    return _HIDDEN.sub(_json_escape if as_json else _escape, text)


def _escape(found: re.Match[str]) -> str:
    code = ord(found[0])
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}"


def _json_escape(found: re.Match[str]) -> str:
    return f"\\u{ord(found[0]):04x}"


def is_text(typed: str) -> bool:
    """Tell whether what was typed is whole letters, not bytes of some other encoding."""
    try:
        typed.encode()
    except UnicodeEncodeError:
        return False
    return True
