"""Edits an article of a rulebook: what may stand in it, how it reads, and what is wrong."""

import re
import types
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import time
from decimal import Decimal
from typing import Annotated, Any, Final, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from wholeball.files.rulebook_edit import with_values
from wholeball.files.rulebook_file import FILE
from wholeball.kernel.faults import Fault, InputFaults, WholeballError
from wholeball.kernel.length import Length
from wholeball.rulebook.book import Path, Rulebook, idle_keys, values
from wholeball.rulebook.differences import Compared, compared
from wholeball.rulebook.load import load
from wholeball.rulebook.reference import reference
from wholeball.rulebook.sentence import Sentence
from wholeball.rulebook.words.lookup import words

WHY: Final = "why"
_WHOLE: Final = re.compile(r"-?[0-9]{1,9}", re.ASCII)
_NUMBER: Final = re.compile(r"-?[0-9]{1,9}\.[0-9]{1,6}", re.ASCII)
_SPARE: Final = 1
"""Empty rungs that are offered at the end of a list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One value that can be typed: `choices` where only some words may stand there."""

    name: str
    label: str
    value: str
    choices: tuple[str, ...] = ()
    is_whole: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key of an article: a value, or rungs of several values each.

    `laws` is what the newest Laws say, `hint` what the key means, `allowed` what may stand there,
    and `faults` what is wrong with what was typed. An idle key means nothing while others have their values.
    """

    key: str
    label: str
    hint: str
    allowed: str
    laws: str
    rungs: tuple[tuple[Cell, ...], ...]
    is_list: bool
    differs: bool
    is_idle: bool
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ArticleListed:
    """An article in a list: how it stands to the Laws, and how it reads."""

    path: Path
    ref: str
    kind: str
    title: str
    sentences: tuple[Sentence, ...]
    standing: Compared


@dataclass(frozen=True, slots=True, kw_only=True)
class Edited:
    """An article as somebody would have it; `text` is None where it has a fault."""

    article: ArticleListed
    keys: tuple[Key, ...]
    why: str
    faults: tuple[Fault, ...]
    text: bytes | None


def articles_of(data: bytes) -> tuple[ArticleListed, ...]:
    """Return every article of a rulebook, in the order of the booklet.

    Raises:
        InputFaults: everything that is wrong with it.
    """
    book = load(data, file=FILE).rulebook
    standing = compared(book)
    return tuple(_listed(book, path, standing[path]) for path, _ in book.articles())


def edited(data: bytes, path: Path, typed: Mapping[str, str] | None = None) -> Edited:
    """Return an article with what was typed into it, judged by the whole rulebook.

    `typed` has a text for each cell by its name, and the reason as `why`.

    Raises:
        InputFaults: the rulebook was wrong before.
        WholeballError: there is no such article.
    """
    book = load(data, file=FILE).rulebook
    if path not in dict(book.articles()):
        raise WholeballError(
            "There is no such article.", fix="Choose one of the list.", code="unknown_value"
        )
    keys = tuple(_keys(book, path))
    why = book.article(path).why
    if typed is None:
        return _edited(book, path, keys, why, (), data)
    keys = tuple(_typed(one, typed) for one in keys)
    why = typed.get(WHY, "").strip()
    try:
        changes = _changes(book, path, keys, why)
        text = with_values(data, path, changes) if changes else data
        now = load(text, file=FILE).rulebook
    except InputFaults as refused:
        told = tuple(_beside(one, refused.faults) for one in keys)
        return _edited(book, path, told, why, refused.faults, None)
    return _edited(now, path, keys, why, (), text)


def _edited(
    book: Rulebook,
    path: Path,
    keys: tuple[Key, ...],
    why: str,
    faults: tuple[Fault, ...],
    text: bytes | None,
) -> Edited:
    listed = _listed(book, path, compared(book)[path])
    return Edited(article=listed, keys=keys, why=why, faults=faults, text=text)


def _listed(book: Rulebook, path: Path, standing: Compared) -> ArticleListed:
    article = book.article(path)
    spoken = words(path)
    return ArticleListed(
        path=path,
        ref=article.ref,
        kind=article.kind,
        title=spoken.title,
        sentences=tuple(spoken.says(book)),
        standing=standing,
    )


def _keys(book: Rulebook, path: Path) -> Iterator[Key]:
    article = book.article(path)
    entries = {
        one.key: one for table in reference() if table.table == path for one in table.keys
    }
    differs = {one.key for one in compared(book)[path].differences}
    idle = idle_keys(book)
    for name, value in values(article).items():
        entry, annotation = entries[name], type(article).model_fields[name].annotation
        record = _record(annotation)
        yield Key(
            key=name,
            label=_label(name),
            hint=entry.meaning,
            allowed=entry.allowed,
            laws=entry.laws,
            rungs=tuple(_rungs(name, annotation, value, record)),
            is_list=isinstance(value, tuple),
            differs=name in differs,
            is_idle=f"{path}.{name}" in idle,
        )


def _rungs(
    name: str, annotation: Any, value: object, record: type[BaseModel] | None
) -> Iterator[tuple[Cell, ...]]:
    if not isinstance(value, tuple):
        yield (_cell(name, annotation, value),)
        return
    inner = get_args(_bare(annotation))[0]
    several: Sequence[object] = [*value, *[None] * _SPARE]
    for number, one in enumerate(several):
        if record is None:
            yield (_cell(f"{name}.{number}", inner, one),)
        else:
            yield tuple(
                _cell(
                    f"{name}.{number}.{part}",
                    field.annotation,
                    None if one is None else getattr(one, part),
                    label=_label(part),
                )
                for part, field in record.model_fields.items()
            )


def _cell(name: str, annotation: Any, value: object, *, label: str = "") -> Cell:
    choices = _choices(annotation)
    kinds = set(_plain(annotation))
    return Cell(
        name=name,
        label=label,
        value=_written(value),
        choices=choices,
        is_whole=kinds == {int},
    )


def _typed(key: Key, typed: Mapping[str, str]) -> Key:
    """Return a key with what was typed into its cells."""
    numbers = [
        int(name.split(".")[1])
        for name in typed
        if name.startswith(f"{key.key}.") and name.split(".")[1].isdecimal()
    ]
    rungs = list(key.rungs)
    while key.is_list and rungs and len(rungs) <= max(numbers, default=0):
        number = len(rungs)
        rungs.append(tuple(_renumbered(one, key.key, number) for one in rungs[-1]))
    return _with(key, tuple(tuple(_told(one, typed) for one in rung) for rung in rungs))


def _renumbered(cell: Cell, key: str, number: int) -> Cell:
    parts = cell.name.removeprefix(f"{key}.").split(".")
    name = ".".join((key, str(number), *parts[1:]))
    return Cell(
        name=name, label=cell.label, value="", choices=cell.choices, is_whole=cell.is_whole
    )


def _told(cell: Cell, typed: Mapping[str, str]) -> Cell:
    return Cell(
        name=cell.name,
        label=cell.label,
        value=typed.get(cell.name, "").strip(),
        choices=cell.choices,
        is_whole=cell.is_whole,
    )


def _with(key: Key, rungs: tuple[tuple[Cell, ...], ...], faults: tuple[str, ...] = ()) -> Key:
    return Key(
        key=key.key,
        label=key.label,
        hint=key.hint,
        allowed=key.allowed,
        laws=key.laws,
        rungs=rungs,
        is_list=key.is_list,
        differs=key.differs,
        is_idle=key.is_idle,
        faults=faults,
    )


def _beside(key: Key, faults: Iterable[Fault]) -> Key:
    """Return a key with the faults that name it."""
    named = re.compile(rf"\b{re.escape(key.key)}\b")
    mine = tuple(f"{one.says} {one.cure}" for one in faults if named.search(one.says))
    return _with(key, key.rungs, mine)


def _changes(book: Rulebook, path: Path, keys: Iterable[Key], why: str) -> dict[str, Any]:
    """Return the values that are other than they were, as TOML has them."""
    article = book.article(path)
    changes: dict[str, Any] = {}
    were = {one.key: one for one in _keys(book, path)}
    for one in keys:
        if _filled(one) != _filled(were[one.key]):
            changes[one.key] = _value(one, type(article).model_fields[one.key].annotation)
    if why != article.why:
        changes[WHY] = why
    return changes


def _filled(key: Key) -> list[tuple[str, ...]]:
    """Return what stands in the cells of a key; rungs without anything are left out."""
    rungs = [tuple(one.value for one in rung) for rung in key.rungs]
    return [rung for rung in rungs if any(rung)] if key.is_list else rungs


def _value(key: Key, annotation: Any) -> Any:
    if not key.is_list:
        return _toml(key.rungs[0][0].value, annotation)
    inner, record = get_args(_bare(annotation))[0], _record(annotation)
    rungs = [rung for rung in key.rungs if any(one.value for one in rung)]
    if record is None:
        return [_toml(rung[0].value, inner) for rung in rungs]
    return [
        {
            part: _toml(cell.value, field.annotation)
            for cell, (part, field) in zip(rung, record.model_fields.items(), strict=True)
        }
        for rung in rungs
    ]


def _toml(text: str, annotation: Any) -> Any:
    """Return what was typed as the kind of value that it is; what is none stays text."""
    kinds = set(_plain(annotation))
    if bool in kinds and text in ("yes", "no"):
        return text == "yes"
    if kinds & {int, Decimal} and _WHOLE.fullmatch(text):
        return int(text)
    if Decimal in kinds and _NUMBER.fullmatch(text):
        return float(text)
    if time in kinds:
        try:
            return time.fromisoformat(text)
        except ValueError:
            return text
    return text


def _written(value: object) -> str:
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case time():
            return f"{value:%H:%M}"
        case Decimal():
            return f"{value.normalize():f}"
        case int() | str() | Length():
            return str(value)
        case _:
            return str(value)


def _bare(annotation: Any) -> Any:
    return get_args(annotation)[0] if get_origin(annotation) is Annotated else annotation


def _record(annotation: Any) -> type[BaseModel] | None:
    """Return the record of which a list holds several, or None."""
    bare = _bare(annotation)
    if get_origin(bare) is not tuple:
        return None
    inner = _bare(get_args(bare)[0])
    return inner if isinstance(inner, type) and issubclass(inner, BaseModel) else None


def _plain(annotation: Any) -> Iterator[type]:
    """Yield the kinds of plain values that an annotation lets stand."""
    bare = _bare(annotation)
    origin = get_origin(bare)
    if origin in (Union, types.UnionType):
        for one in get_args(bare):
            yield from _plain(one)
    elif origin is Literal:
        yield from {type(one) for one in get_args(bare)}
    elif isinstance(bare, type):
        yield bare


def _choices(annotation: Any) -> tuple[str, ...]:
    """Return the words of which one must stand there; none where more may."""
    bare = _bare(annotation)
    if bare is bool:
        return ("yes", "no")
    if get_origin(bare) is Literal:
        return tuple(_written(one) for one in get_args(bare))
    return ()


def _label(name: str) -> str:
    return name.replace("_", " ").capitalize()
