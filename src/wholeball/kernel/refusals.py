"""Turns what a schema refuses into faults that a person can mend."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Final, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.lines import Loc
from wholeball.kernel.nearest import did_you_mean, nearest
from wholeball.kernel.text import unreadable

_LONGEST: Final = 80
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_DIGITS = re.compile(r"-?[0-9]+")
_TYPES: Final = {
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "bool_type": "true or false",
    "string_type": "text in quotes",
    "decimal_type": "a number",
    "is_instance_of": "a number",
    "tuple_type": "a list in brackets",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "dict_type": "a table",
    "time_type": "a time such as 12:00:00",
    "date_type": "a day such as 2026-09-15",
    "finite_number": "a finite number",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Schema:
    """How the keys of a kind of file are named: its model, and what its tables are called.

    `article_of` gives the path of the table that a key belongs to, or None where keys stand
    alone; `cleaned` turns a location of the schema into one of the file; `often_meant` gives
    the cure for words that people bring from elsewhere; `crowded` is the cure for known keys
    that one table cannot hold together.
    """

    root: type[BaseModel]
    article_of: Callable[[Loc], str | None] = lambda _: None
    cleaned: Callable[[Loc], Loc] = lambda loc: loc
    top_keys: tuple[str, ...]
    often_meant: Mapping[str, str] = field(default_factory=dict)
    crowded: str = "Keep one of them."


class Source:
    """A person's file: its name, and the line on which each of its keys stands."""

    def __init__(self, file: str, at: dict[Loc, int]) -> None:
        self.file = file
        self._at = at

    def place(self, loc: Loc, article: str | None = None) -> Place:
        """Return where a key stands, or the nearest table around it that the file has."""
        around = (loc[:length] for length in range(len(loc), 0, -1))
        line = next((self._at[outer] for outer in around if outer in self._at), None)
        return Place(file=self.file, line=line, article=article)

    def has(self, loc: Loc) -> bool:
        """Tell whether the file itself has this key."""
        return loc in self._at


def value_faults(errors: Iterable[ErrorDetails], source: Source, schema: Schema) -> list[Fault]:
    """Return one fault for each thing the schema refused, in the order of the file."""
    faults = [_fault(error, source, schema) for error in errors if not _follows(error)]
    return sorted(faults, key=lambda fault: fault.place.line or 0)


def _follows(error: ErrorDetails) -> bool:
    """Tell whether a list is called too short only because items of it were refused."""
    return error["type"] == "too_short" and len(error["input"]) >= error["ctx"]["min_length"]


def _fault(error: ErrorDetails, source: Source, schema: Schema) -> Fault:
    loc = schema.cleaned(error["loc"])
    article = schema.article_of(loc)
    judged = _judged(error, loc, schema)
    shown = toml_text(error["input"])
    return Fault(
        code=judged.code,
        place=source.place(loc, article),
        says=f"{named(loc, article)} {judged.says or f'is {shown}'}.",
        value=shown,
        allowed=judged.allowed,
        cure=judged.cure,
    )


def refuse_version(
    said: Mapping[str, Any], *, reads: int, source: Callable[[], Source]
) -> None:
    """Let a file pass that names the schema this program reads, or none.

    Raises:
        InputFaults: it names another, and what it means may have changed.
    """
    schema = said.get("schema", reads)
    if type(schema) is int and schema == reads:
        return
    fault = Fault(
        code="version" if type(schema) is int else "type",
        place=source().place(("schema",)),
        says=f"schema is {toml_text(schema)}; this program reads schema {reads}.",
        value=toml_text(schema),
        allowed=str(reads),
        cure="Nothing was guessed. Get the newer program, or write the file anew.",
    )
    raise InputFaults([fault])


def hidden(said: object, loc: Loc = ()) -> Iterator[tuple[Loc, tuple[str, str]]]:
    """Yield where a text stands that holds what nobody can see, with its code and character."""
    if isinstance(said, str) and (found := unreadable(said)) is not None:
        yield loc, found
    if isinstance(said, dict):
        for name, item in said.items():
            yield from hidden(item, (*loc, name))
    if isinstance(said, list):
        for index, item in enumerate(said):
            yield from hidden(item, (*loc, index))


def hidden_faults(said: object, source: Source, schema: Schema) -> list[Fault]:
    """Return one fault for each text of a file that holds what nobody can see."""
    return [
        Fault(
            code=code,
            place=source.place(loc, schema.article_of(loc)),
            says=f"{named(loc, schema.article_of(loc))} holds {character}, which nobody can see.",
            value=character,
            allowed="letters, digits, signs, spaces and emoji of any script",
            cure="Delete it and type the words again.",
        )
        for loc, (code, character) in hidden(said)
    ]


def named(loc: Loc, article: str | None) -> str:
    """Return how a key is called in a sentence: "[goalkeeper.hold] seconds"."""
    if article is None:
        return _dotted(loc)
    return f"[{article}] {_dotted(loc[article.count('.') + 1 :])}".rstrip()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Judged:
    code: str
    allowed: str
    cure: str
    says: str = ""


def _judged(error: ErrorDetails, loc: Loc, schema: Schema) -> _Judged:
    kind, value = error["type"], error["input"]
    if isinstance(value, Decimal) and not value.is_finite():
        return _Judged(code="range", allowed="a finite number", cure="Give a finite number.")
    if kind in _TYPES:
        return _Judged(
            code="type", allowed=_TYPES[kind], cure=_of_type(value, _TYPES[kind], loc)
        )
    if kind in {"unknown_value", "duplicate", "range", "type"}:
        return _own_words(error)
    return _by_schema(error, loc, schema)


def _by_schema(error: ErrorDetails, loc: Loc, schema: Schema) -> _Judged:
    match error["type"]:
        case "extra_forbidden":
            known = list(dict.fromkeys(_keys_at(loc[:-1], schema)))
            if len(loc) > 1 and loc[-1] in known:
                return _Judged(
                    code="unknown_key",
                    allowed=", ".join(known),
                    cure=schema.crowded,
                    says="does not go with the others of its table",
                )
            cure = did_you_mean(str(loc[-1]), known)
            says = "is not known" if len(loc) > 1 else "is no table or key of this file"
            return _Judged(code="unknown_key", allowed=", ".join(known), cure=cure, says=says)
        case "missing":
            return _Judged(
                code="missing", allowed="a value", cure="Give it a value.", says="is missing"
            )
        case "literal_error":
            return _word(error["input"], error, schema.often_meant)
        case _:
            return _bounded(error, loc, schema)


_OWN_CURES: Final = {
    "unknown_value": "Use one of those.",
    "duplicate": "Delete one of them.",
    "range": "Change one of them.",
    "type": "Change it.",
}


def _own_words(error: ErrorDetails) -> _Judged:
    """Take the words of a check of our own; its context may bring `cure`."""
    message = error["msg"]
    return _Judged(
        code=error["type"],
        allowed=message,
        cure=error.get("ctx", {}).get("cure", _OWN_CURES[error["type"]]),
        says=f"is {toml_text(error['input'])}: {message}",
    )


def _word(value: object, error: ErrorDetails, often_meant: Mapping[str, str]) -> _Judged:
    expected = error["ctx"]["expected"]
    known = re.findall(r"'([^']*)'", expected) or [expected.lower()]
    allowed = "a whole number, or no_limit" if known == ["no_limit"] else ", ".join(known)
    if not isinstance(value, str):
        is_switch = isinstance(value, bool) and expected in {"True", "False"}
        code = "range" if is_switch else "type"
        return _Judged(code=code, allowed=allowed, cure=f"Use one of: {allowed}.")
    if known == ["no_limit"] and _DIGITS.fullmatch(value):
        return _Judged(code="type", allowed=allowed, cure=f"Write {value}, without quotes.")
    meant = often_meant.get(nearest(value, often_meant, cutoff=0.8) or "")
    if meant:
        cure = f"Did you mean {meant}?"
    elif known == ["no_limit"]:
        cure = f"Give {allowed}."
    else:
        cure = did_you_mean(value, known)
    return _Judged(code="unknown_value", allowed=allowed, cure=cure)


def _of_type(value: object, wanted: str, loc: Loc) -> str:
    if isinstance(value, str) and _DIGITS.fullmatch(value) and "number" in wanted:
        return f"Write {loc[-1]} = {value}, without quotes."
    return f"Give {wanted}."


def _bounded(error: ErrorDetails, loc: Loc, schema: Schema) -> _Judged:
    least, most = _bounds_at(loc, schema)
    context = error.get("ctx", {})
    least = context.get("ge", context.get("min_length", least))
    most = context.get("le", context.get("max_length", most))
    if least is None or most is None:
        allowed = f"{least} or more" if most is None else f"at most {most}"
    else:
        allowed = f"{least} to {most}"
    if error["type"].startswith(("string", "too")):
        unit = "characters" if error["type"].startswith("string") else "items"
        return _Judged(
            code="limits" if error["type"].endswith("long") else "range",
            allowed=f"{allowed} {unit}",
            cure=f"Give {allowed}.",
            says=f"has {len(error['input']):,} {unit}",
        )
    return _Judged(code="range", allowed=allowed, cure=f"Give {allowed}.")


def _bounds_at(loc: Loc, schema: Schema) -> tuple[Any, Any]:
    kinds = _kinds_at(loc[:-1], schema)
    fields = [_fields(kind).get(str(loc[-1])) for kind in kinds]
    found = [limit for field in fields if field for limit in _limits(field)]
    return _first(found, "ge", "min_length"), _first(found, "le", "max_length")


def _first(limits: list[Any], *names: str) -> Any:
    return next(
        (getattr(limit, name) for limit in limits for name in names if hasattr(limit, name)),
        None,
    )


def _limits(field: FieldInfo) -> Iterator[Any]:
    """Yield a key's own bounds, or those of the one branch of it that has any."""
    yield from field.metadata
    for branch in get_args(field.annotation):
        for about in get_args(branch)[1:]:
            yield from about.metadata if isinstance(about, FieldInfo) else ()


def _keys_at(loc: Loc, schema: Schema) -> list[str]:
    if not loc:
        return list(schema.top_keys)
    return [name for kind in _kinds_at(loc, schema) for name in _fields(kind)]


def _fields(kind: type[BaseModel]) -> dict[str, FieldInfo]:
    """Return the keys of a record as a file names them."""
    return {field.alias or name: field for name, field in kind.model_fields.items()}


def _kinds_at(loc: Loc, schema: Schema) -> list[type[BaseModel]]:
    kinds: list[type[BaseModel]] = [schema.root]
    for name in loc:
        if isinstance(name, str):
            fields = [_fields(kind).get(name) for kind in kinds]
            kinds = [kind for field in fields if field for kind in _records(field.annotation)]
    return kinds


def _records(annotation: object) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [kind for inner in get_args(annotation) for kind in _records(inner)]


def _dotted(loc: Loc) -> str:
    words = ""
    for name in loc:
        words += f" item {name + 1}" if isinstance(name, int) else f".{_key_text(name)}"
    return words.lstrip(". ")


def _key_text(name: str) -> str:
    return _cut(name) if _BARE.fullmatch(name) else toml_text(name)


def toml_text(value: object) -> str:
    """Return a value as a person would write it in TOML, cut where it is long.

    What nobody can see is written as an escape, so that it cannot reorder or break a page.
    """
    match value:
        case bool():
            text = str(value).lower()
        case str():
            text = f'"{_visible(value[: _LONGEST + 1])}"'
        case tuple() | list():
            text = f"[{', '.join(toml_text(item) for item in value[:_LONGEST])}]"
        case dict():
            pairs = list(value.items())[:_LONGEST]
            inner = ", ".join(f"{_key_text(name)} = {toml_text(item)}" for name, item in pairs)
            text = f"{{ {inner} }}" if pairs else "{}"
        case Decimal() if not value.is_finite():
            text = str(value).lower().replace("infinity", "inf")
        case _:
            text = str(value)
    return _cut(text)


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}..."


def _visible(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    if escaped.isprintable():
        return escaped
    return "".join(
        f"\\u{ord(one):04x}" if one in "\n\t" or unreadable(one) else one for one in escaped
    )
