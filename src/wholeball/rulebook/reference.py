"""Lists every table and key that a rulebook can have, read off the schema itself."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import time
from decimal import Decimal
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from wholeball.kernel.length import Length
from wholeball.rulebook.book import Path, Rulebook, parts
from wholeball.rulebook.criteria import AmongLevel
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.value import ABOUT, Article, Value


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyEntry:
    """One key of a table: what may stand there, what it means, what the newest Laws say."""

    table: Path
    key: str
    allowed: str
    meaning: str
    laws: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TableEntry:
    """One table with its keys."""

    table: Path
    meaning: str
    keys: tuple[KeyEntry, ...]


def reference() -> tuple[TableEntry, ...]:
    """Return every table in the order of the booklet."""
    laws = edition(NEWEST)
    return tuple(
        TableEntry(
            table=path,
            meaning=(kind.__doc__ or "").strip().split("\n")[0],
            keys=tuple(_keys(path, kind, laws.article(path))),
        )
        for path, kind in _tables(Rulebook, "")
    )


def about_keys() -> tuple[KeyEntry, ...]:
    """Return the keys that every table may have besides its own."""
    fields = Article.model_fields
    return tuple(
        KeyEntry(
            table="",
            key=name,
            allowed=_allowed(fields[name]),
            meaning=_says(fields[name]),
            laws="",
        )
        for name in ABOUT
    )


def _tables(kind: type[Value], path: str) -> Iterator[tuple[Path, type[Article]]]:
    for name, inner in parts(kind).items():
        yield f"{path}{name}", inner
        yield from _tables(inner, f"{path}{name}.")


def _keys(path: Path, kind: type[Article], laws: Article) -> Iterator[KeyEntry]:
    for name, field in kind.model_fields.items():
        if name not in ABOUT and name not in parts(kind):
            yield KeyEntry(
                table=path,
                key=name,
                allowed=_allowed(field),
                meaning=_says(field),
                laws=_written(getattr(laws, name)),
            )


def _says(field: FieldInfo) -> str:
    extra = field.json_schema_extra
    unit = (
        f" In {str(extra['unit']).removeprefix('in ')}."
        if isinstance(extra, dict) and "unit" in extra
        else ""
    )
    return f"{field.description}{unit}"


def _allowed(field: FieldInfo) -> str:
    return _described(field.annotation) + _bounds(field.metadata)


def _bounds(metadata: list[Any]) -> str:
    limits = [
        limit
        for one in metadata
        for limit in (one.metadata if isinstance(one, FieldInfo) else [one])
    ]
    least = next((one.ge for one in limits if hasattr(one, "ge")), None)
    most = next((one.le for one in limits if hasattr(one, "le")), None)
    return "" if least is None or most is None else f", {least} to {most}"


def _described(annotation: Any) -> str:
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *metadata = get_args(annotation)
        return _described(inner) + _bounds(metadata)
    if origin is Literal:
        return " or ".join(_written(word) for word in get_args(annotation))
    if origin is tuple:
        return f"list of: {_described(get_args(annotation)[0])}"
    if origin in (Union, UnionType):
        return " or ".join(_described(inner) for inner in get_args(annotation))
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return _record(annotation)
    return _PLAIN[annotation]


def _record(kind: type[BaseModel]) -> str:
    keys = ", ".join(f"{name} = {_allowed(field)}" for name, field in kind.model_fields.items())
    return f"{{ {keys} }}" if kind is not AmongLevel else _among_level()


def _among_level() -> str:
    figures = _described(AmongLevel.model_fields["among_level"].annotation)
    return f"{{ among_level = {figures}; again = true or false }}"


_PLAIN: dict[Any, str] = {
    int: "whole number",
    bool: "true or false",
    str: "text",
    Decimal: "number",
    Length: "length with its unit",
    time: "time of day",
}


def _written(value: object) -> str:
    match value:
        case bool():
            return str(value).lower()
        case tuple():
            return f"[{', '.join(_written(item) for item in value)}]"
        case BaseModel():
            inner = ", ".join(f"{name} = {_written(item)}" for name, item in value)
            return f"{{ {inner} }}"
        case str() | Length():
            return f'"{value}"'
        case _:
            return str(value)
