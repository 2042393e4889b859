"""Reads TOML that a person wrote, bounded in size and depth, with one clear fault at most."""

import re
import tomllib
from decimal import Decimal
from typing import Any, Final

from wholeball.kernel.faults import Fault, InputFaults, Place

MOST_BYTES: Final = 2_000_000
MOST_DEPTH: Final = 32

_SKIPPED = r'"""(?:[^\\]|\\.)*?"""|\'\'\'.*?\'\'\'|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|\#[^\n]*'
_BRACKETS = re.compile(rf"(?:{_SKIPPED})|([\[{{])|([\]}}])", re.DOTALL)
_DOTS = re.compile(rf"(?:\.[^.\n=]*){{{MOST_DEPTH},}}")
_AT = re.compile(r" ?\(at (?:line (\d+), column (\d+)|end of document)\)$")
_TWICE = (
    "Cannot overwrite",
    "Cannot declare",
    "Cannot redefine",
    "Duplicate inline",
    "Cannot mutate",
)


def read_toml(data: bytes, *, file: str) -> dict[str, Any]:
    """Return a TOML file's values; numbers with a point come as Decimal.

    Raises:
        InputFaults: one fault: limits, encoding, empty, duplicate_key or syntax.
    """
    text = _text(data, file=file)
    if not text.strip():
        raise _one(
            "empty", file, "the file is empty.", "Start from a preset: wholeball new DIR."
        )
    _bound_depth(text, file=file)
    try:
        return tomllib.loads(f"{text}\n", parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise _syntax(str(error), file=file) from error


def frozen(value: Any) -> Any:
    """Return a value with its lists turned into tuples, as the records hold them."""
    if isinstance(value, list):
        return tuple(frozen(item) for item in value)
    if isinstance(value, dict):
        return {name: frozen(item) for name, item in value.items()}
    return value


def decode(data: bytes, *, file: str) -> str:
    """Return the text of UTF-8 bytes, without a byte order mark and with plain line ends.

    Raises:
        InputFaults: the bytes are not UTF-8.
    """
    if data[:2] in {b"\xff\xfe", b"\xfe\xff"}:
        raise _one("encoding", file, "the file is UTF-16.", "Save it as UTF-8.")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        says = f"byte {data[error.start]:#04x} is not UTF-8."
        raise _one("encoding", file, says, "Save the file as UTF-8.", line=line) from error


def _text(data: bytes, *, file: str) -> str:
    if len(data) > MOST_BYTES:
        says = f"the file has {len(data):,} bytes; at most {MOST_BYTES:,} are read."
        raise _one("limits", file, says, "Take out what is not a rule.")
    return decode(data, file=file)


def _bound_depth(text: str, *, file: str) -> None:
    depth = 0
    for found in _BRACKETS.finditer(text):
        depth += bool(found[1]) - bool(found[2])
        if depth > MOST_DEPTH:
            raise _too_deep(text, found.start(), file=file)
    dotted = _DOTS.search(text)
    if dotted is not None and _is_key(text, dotted.start()):
        raise _too_deep(text, dotted.start(), file=file)


def _is_key(text: str, at: int) -> bool:
    line = text[text.rfind("\n", 0, at) + 1 : at]
    return not any(mark in line for mark in "\"'#=")


def _too_deep(text: str, at: int, *, file: str) -> InputFaults:
    line = text.count("\n", 0, at) + 1
    says = f"brackets or tables are nested more than {MOST_DEPTH} deep."
    return _one("limits", file, says, "No rule needs more than four levels.", line=line)


def _syntax(message: str, *, file: str) -> InputFaults:
    at = _AT.search(message)
    line = int(at[1]) if at is not None and at[1] else None
    says = _AT.sub("", message) + "."
    if message.startswith(_TWICE):
        cure = "Each key stands once; take one of the two out."
        return _one("duplicate_key", file, says, cure, line=line)
    return _one("syntax", file, says, "Mend this place; what follows was not read.", line=line)


def _one(code: str, file: str, says: str, cure: str, *, line: int | None = None) -> InputFaults:
    return InputFaults(
        [Fault(code=code, place=Place(file=file, line=line), says=says, cure=cure)]
    )
