"""Says what is wrong with a stored line that could not be read: where, and why."""

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any, Final

from pydantic import BaseModel, ValidationError, create_model
from pydantic_core import ErrorDetails

from wholeball.game.envelope import MOST_EVENTS, MOST_NUMBER, Envelope
from wholeball.game.happenings import Happening
from wholeball.kernel.canonical import canonical_bytes
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.lines import Loc
from wholeball.kernel.refusals import Schema, Source, toml_text, value_faults

MOST_LINE: Final = 300_000
MOST_DEPTH: Final = 16
_MOST_DIGITS: Final = 40
_BRACKET = re.compile(rb'"(?:[^"\\]|\\.)*+"?|([\[{])|([\]}])', re.DOTALL)
_SURROGATE = re.compile("[\ud800-\udfff]")
_BESIDE: Final = {
    "hash": (re.compile(r"[0-9a-f]{64}"), "64 hexadecimal digits in small letters"),
    "sig": (re.compile(r"[ !#-\[\]-~]{1,512}"), "1 to 512 ASCII signs, none a quote or \\"),
}
_MEND: Final = "Take the line from where it was recorded; a line is never written by hand."


def simple_fault(
    code: str, says: str, *, file: str, number: int | None = None, cure: str = _MEND
) -> Fault:
    """Return a fault of a line of a log, or of the whole of it."""
    return Fault(code=code, place=Place(file=file, line=number), says=says, cure=cure)


def form_faults(line: bytes, *, file: str, number: int) -> list[Fault]:
    """Return what is wrong with the form of a line: not JSON, other keys, not canonical.

    Empty where only the values of its event can be wrong.
    """
    try:
        _refuse_form(line)
    except _Malformed as error:
        return [simple_fault(error.code, error.says, file=file, number=number)]
    return []


def said_faults(error: ValidationError, line: bytes, *, file: str, number: int) -> list[Fault]:
    """Return one fault for each thing that is no envelope's."""
    schema = Schema(root=Envelope, top_keys=tuple(Envelope.model_fields))
    return _faults(error.errors(include_url=False), schema, _Line(file, number, line))


def payload_faults(
    error: ValidationError, kind: type[Happening], line: bytes, *, file: str, number: int
) -> list[Fault]:
    """Return one fault for each thing that is not of its kind of happening."""
    root: type[BaseModel] = create_model("Payload", p=(kind, ...))
    errors = [{**one, "loc": ("p", *one["loc"])} for one in error.errors(include_url=False)]
    return _faults(errors, Schema(root=root, top_keys=("p",)), _Line(file, number, line))


class _Malformed(Exception):
    def __init__(self, code: str, says: str) -> None:
        super().__init__(says)
        self.code = code
        self.says = says


class _Line(Source):
    """One line of a log, in which a key is found by its byte."""

    def __init__(self, file: str, number: int, line: bytes) -> None:
        super().__init__(file, {})
        self.number = number
        self._line = line

    def place(self, loc: Loc, article: str | None = None) -> Place:  # noqa: ARG002 - one line holds all keys
        return Place(file=self.file, line=self.number, article=article)

    def byte(self, loc: Loc) -> int:
        """Return at which byte, from 1, the innermost key on a path stands."""
        at = 0
        for name in loc:
            key = json.dumps(name, ensure_ascii=False).encode("utf-8", "replace")
            at = max(at, self._line.find(key + b":", at)) if isinstance(name, str) else at
        return at + 1


def _faults(errors: Iterable[Any], schema: Schema, line: _Line) -> list[Fault]:
    return [
        replace(fault, says=f"byte {line.byte(error['loc'])}: {fault.says}")
        for error in errors
        for fault in _translated(error, schema, line)
    ]


_ALLOWED: Final = {
    "id": "a UUID of version 7 in small letters",
    "dev": "1 to 64 of the letters A to Z and a to z, digits, - and _",
    "rb": "64 hexadecimal digits in small letters",
    "prev": "64 hexadecimal digits in small letters, or nothing in a device's first entry",
    "seen": "device names, each with a number and 64 hexadecimal digits",
}
_TIMES: Final = ("wall", "hlc")


def _translated(error: ErrorDetails, schema: Schema, line: _Line) -> Iterator[Fault]:
    """Yield a schema's refusal as a fault; times and forms of text have words of their own."""
    if error["type"] == "json_invalid":
        yield simple_fault("syntax", error["msg"], file=line.file, number=line.number)
        return
    key = str(error["loc"][0])
    if key in _TIMES and error["type"] != "missing" and error["loc"][1:] != (1,):
        allowed = "milliseconds from 2000 to 2099, as a whole number"
        yield _value_fault("range", error, allowed, line)
    elif error["type"] == "string_pattern_mismatch":
        yield _value_fault("range", error, _ALLOWED[key], line)
    elif key == "seq" and error["type"] == "less_than_equal":
        yield _value_fault("limits", error, f"at most {MOST_EVENTS:,} a device and game", line)
    else:
        yield from value_faults([error], line, schema)


def _value_fault(code: str, error: ErrorDetails, allowed: str, line: _Line) -> Fault:
    shown = toml_text(error["input"])
    return Fault(
        code=code,
        place=line.place(error["loc"]),
        says=f"{'.'.join(map(str, error['loc']))} is {shown}.",
        value=shown,
        allowed=allowed,
        cure=f"Allowed: {allowed}.",
    )


def _refuse_form(line: bytes) -> None:
    if len(line) > MOST_LINE:
        raise _Malformed("limits", f"the line has {len(line):,} bytes; {MOST_LINE:,} are read.")
    _refuse_depth(line)
    said = _json(_text(line))
    _refuse_keys(said)
    _refuse_values(said)
    try:
        canonical = canonical_bytes(said)
    except TypeError:
        return
    if canonical != line:
        at = _first_difference(canonical, line)
        says = f"byte {at}: these are not the canonical bytes of what they say."
        raise _Malformed("not_canonical", says)


def _refuse_depth(line: bytes) -> None:
    depth = 0
    for found in _BRACKET.finditer(line):
        depth += (found[1] is not None) - (found[2] is not None)
        if depth > MOST_DEPTH:
            says = f"byte {found.start() + 1}: brackets are nested more than {MOST_DEPTH} deep."
            raise _Malformed("limits", says)


def _text(line: bytes) -> str:
    try:
        return line.decode("utf-8")
    except UnicodeDecodeError as error:
        says = f"byte {error.start + 1}: {line[error.start]:#04x} is not UTF-8."
        raise _Malformed("encoding", says) from error


def _json(text: str) -> Any:
    try:
        return json.loads(text, object_pairs_hook=_once, parse_int=_whole)
    except json.JSONDecodeError as error:
        at = len(text[: error.pos].encode("utf-8")) + 1
        raise _Malformed("syntax", f"byte {at}: this is no JSON: {error.msg}.") from error


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    said = dict(pairs)
    if len(said) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise _Malformed("duplicate_key", f"{toml_text(twice)} is given twice.")
    return said


def _whole(written: str) -> int:
    if len(written) > _MOST_DIGITS:
        raise _Malformed("range", f"a number has {len(written):,} digits.")
    return int(written)


def _refuse_keys(said: Any) -> None:
    if not isinstance(said, dict) or not isinstance(said.get("event"), dict):
        raise _Malformed("syntax", 'byte 1: the line is not {"event":{...},"hash":"..."}.')
    for name in said.keys() - {"event", "hash", "sig"}:
        raise _Malformed("unknown_key", f"{toml_text(name)} is no key beside event, hash, sig.")
    for name, (form, allowed) in _BESIDE.items():
        value = said.get(name)
        if name not in said and name != "sig":
            raise _Malformed("missing", f"{name} is missing.")
        if name in said and not isinstance(value, str):
            raise _Malformed("type", f"{name} is {toml_text(value)}; it is text in quotes.")
        if isinstance(value, str) and not form.fullmatch(value):
            raise _Malformed("range", f"{name} is {toml_text(value)}; it is {allowed}.")


def _refuse_values(said: dict[str, Any]) -> None:
    """Refuse text that has no UTF-8 form, and in a payload what only some readers keep."""
    for value in _leaves(said):
        if isinstance(value, str) and _SURROGATE.search(value):
            raise _Malformed("encoding", "half of a surrogate pair stands alone in a text.")
    for value in _leaves(said["event"].get("p")):
        if isinstance(value, float):
            raise _Malformed("type", f"p holds {value!r}; numbers are whole.")
        if isinstance(value, int) and abs(value) > MOST_NUMBER:
            raise _Malformed("range", f"p holds {value}; no number is beyond 2^53 - 1.")


def _leaves(value: Any) -> Iterator[Any]:
    """Yield the keys and the values that hold nothing else."""
    if isinstance(value, dict):
        yield from value
        for item in value.values():
            yield from _leaves(item)
    elif isinstance(value, list):
        for item in value:
            yield from _leaves(item)
    else:
        yield value


def _first_difference(canonical: bytes, line: bytes) -> int:
    pairs = zip(canonical, line, strict=False)
    same = next((at for at, (one, other) in enumerate(pairs) if one != other), None)
    return 1 + (min(len(canonical), len(line)) if same is None else same)
