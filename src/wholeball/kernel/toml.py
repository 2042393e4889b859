"""Reads TOML that a person wrote, bounded in size and depth, with one clear fault at most."""

import re
import tomllib
from collections.abc import Iterator
from decimal import Decimal, InvalidOperation
from typing import Any, Final

from wholeball.kernel.faults import Fault, InputFaults, Place

MOST_BYTES: Final = 2_000_000
MOST_DEPTH: Final = 32
MOST_VALUES: Final = 20_000
MOST_DIGITS: Final = 18
"""Digits that a number may have on either side of its point; more are slips."""

_SKIPPED = (
    r'"""(?:[^\\]|\\.)*?"{3,5}|\'\'\'.*?\'{3,5}'
    r'|"(?:[^"\\\n]++|\\.)*+"|\'[^\'\n]*+\'|\#[^\n]*+'
)
_TOKEN = re.compile(
    rf"(?P<skipped>{_SKIPPED})|(?P<opens>[\[{{]|\"\"\"|''')|(?P<closes>[\]}}])|(?P<dot>\.)"
    r"|(?P<value>[=,])|(?P<ends>\n)|(?P<long>0[xob][0-9A-Fa-f_]{41,}|[0-9][0-9_]{40,})",
    re.DOTALL,
)
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
_AT = re.compile(r" ?\(at (?:line (\d+), column (\d+)|end of document)\)$")
_TWICE = (
    "Cannot overwrite",
    "Cannot declare",
    "Cannot redefine",
    "Duplicate inline",
    "Cannot mutate",
)
_MEND: Final = "Mend this place; what follows was not read."
_CURES: Final = (
    (r"Expected newline.*\n.*=\s*\d+:\d+:\d", "There is no such time: the last is 23:59:59."),
    (r"Expected newline.*\n.*=\s*\d+:\d", "Write a time with its seconds: 12:00:00."),
    (r"Expected newline.*\n.*=\s*[+-]?0\d", "Write the number without a 0 in front."),
    (r"Expected '='", "Write it as: key = value."),
    (r"Illegal character '\\n'", "Close the quote on the line on which it is opened."),
    (r"Invalid value", "Write text in quotes, and numbers, true and false without."),
    (r"Invalid date", "There is no such day or time: write 2026-09-15 or 12:00:00."),
)
"""What mends a fault that the reader names, told by its words and the line it stands on."""


def read_toml(data: bytes, *, file: str) -> dict[str, Any]:
    """Return a TOML file's values; numbers with a point come as Decimal.

    Raises:
        InputFaults: one fault: limits, encoding, empty, control_char, range (of a number no
            program should compute with), duplicate_key or syntax.
    """
    text = _text(data, file=file)
    if not text.strip():
        raise _one("empty", file, "the file is empty.", "Write it, or start from a preset.")
    _refuse_control(text, file=file)
    _bound(text, file=file)
    try:
        said = tomllib.loads(f"{text}\n", parse_float=_number)
    except tomllib.TOMLDecodeError as error:
        raise _syntax(str(error), text, file=file) from error
    except _TooLong as error:
        at = next(_found(re.escape(str(error)), text), 0)
        raise _too_long(text, at, file=file) from error
    if _is_deep(said):
        raise _too_deep(file=file)
    return said


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
    told = data.removeprefix(b"\xef\xbb\xbf")
    try:
        return told.decode("utf-8").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = told[: error.start].count(b"\n") + 1
        says = f"byte {told[error.start]:#04x} is not UTF-8."
        raise _one("encoding", file, says, "Save the file as UTF-8.", line=line) from error


class _TooLong(Exception):
    """A number, as it was written, that has more digits than anything measured."""


def _number(written: str) -> Decimal:
    try:
        number = Decimal(written)
    except InvalidOperation as error:
        raise _TooLong(written) from error
    exponent = number.as_tuple().exponent
    if isinstance(exponent, int) and (
        number.adjusted() >= MOST_DIGITS or exponent < -MOST_DIGITS
    ):
        raise _TooLong(written)
    return number


def _text(data: bytes, *, file: str) -> str:
    if len(data) > MOST_BYTES:
        says = f"the file has {len(data):,} bytes; at most {MOST_BYTES:,} are read."
        raise _one("limits", file, says, "Take out what is not a rule.")
    return decode(data, file=file)


def _refuse_control(text: str, *, file: str) -> None:
    found = _CONTROL.search(text)
    if found is not None:
        says = f"U+{ord(found[0]):04X} stands here, which nobody can see."
        cure = "Delete it and type the words again."
        raise _one("control_char", file, says, cure, line=_line(text, found.start()))


def _bound(text: str, *, file: str) -> None:
    """Refuse what would cost a reader time or depth before it starts. O(n) in the text."""
    depth = dots = values = 0
    for found in _TOKEN.finditer(text):
        kind = found.lastgroup
        depth += (kind == "opens") - (kind == "closes")
        dots = dots + 1 if kind == "dot" else dots * (kind in {"skipped", "long"})
        values += kind in {"opens", "value"}
        if max(depth, dots) > MOST_DEPTH:
            raise _too_deep(file=file, line=_line(text, found.start()))
        if values > MOST_VALUES:
            says = f"the file holds more than {MOST_VALUES:,} values."
            line = _line(text, found.start())
            raise _one("limits", file, says, "Take out what is not a rule.", line=line)
        if kind == "long":
            raise _too_long(text, found.start(), file=file)


def _is_deep(said: dict[str, Any]) -> bool:
    """Tell whether tables stand too deep in one another, without going down into them."""
    level: list[Any] = [said]
    for _ in range(MOST_DEPTH + 1):
        level = [
            item
            for value in level
            for item in (value.values() if isinstance(value, dict) else value)
            if isinstance(item, dict | list)
        ]
    return bool(level)


def _found(pattern: str, text: str) -> Iterator[int]:
    """Yield where a pattern stands outside strings and comments."""
    for found in re.finditer(rf"(?:{_SKIPPED})|({pattern})", text, re.DOTALL):
        if found[1] is not None:
            yield found.start()


def _line(text: str, at: int) -> int:
    return text.count("\n", 0, at) + 1


def _too_deep(*, file: str, line: int | None = None) -> InputFaults:
    says = f"brackets or tables are nested more than {MOST_DEPTH} deep."
    return _one("limits", file, says, "No rule needs more than four levels.", line=line)


def _too_long(text: str, at: int, *, file: str) -> InputFaults:
    says = f"a number has more than {MOST_DIGITS} digits before or after its point."
    cure = "Give a number that something can be measured with."
    return _one("range", file, says, cure, line=_line(text, at))


def _syntax(message: str, text: str, *, file: str) -> InputFaults:
    at = _AT.search(message)
    line = int(at[1]) if at is not None and at[1] else None
    told = "" if line is None else f"{text}\n".split("\n")[line - 1].strip()
    if message.startswith(_TWICE):
        says = f"{told[:80]!r} gives again what is given already."
        cure = "Each key stands once; take one of the two out."
        return _one("duplicate_key", file, says, cure, line=line)
    says = _AT.sub("", message)[:200] + "."
    if line is None:
        cure = "Close what is opened here."
        return _one("syntax", file, says, cure, line=_last_opened(text))
    known = (cure for words, cure in _CURES if re.match(words, f"{says}\n{told}"))
    return _one("syntax", file, says, next(known, _MEND), line=line)


def _last_opened(text: str) -> int:
    """Return the line of the innermost quote or bracket that is never closed."""
    opened: list[int] = []
    for found in _TOKEN.finditer(text):
        if found.lastgroup == "opens":
            opened.append(found.start())
        elif found.lastgroup == "closes" and opened:
            opened.pop()
    return _line(text, opened[-1] if opened else len(text.rstrip()))


def _one(code: str, file: str, says: str, cure: str, *, line: int | None = None) -> InputFaults:
    return InputFaults(
        [Fault(code=code, place=Place(file=file, line=line), says=says, cure=cure)]
    )
