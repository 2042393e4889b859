"""Adds a rule to planning.toml, changes one or takes one out; all else stays byte for byte.

tomlkit moves comments where a table is put between others, so that it is given the lines of one
rule alone; what comes of it is read back before it is kept.
"""

import io
import tomllib
from collections.abc import Callable, Mapping, MutableMapping
from typing import Any, Final, TypeAlias

import tomlkit
from tomlkit.items import Array
from tomlkit.toml_document import TOMLDocument

from wholeball.files.planning_edit import with_amount
from wholeball.files.planning_toml import FILE
from wholeball.files.toml_edit import behind_mark, edited, refused_edit
from wholeball.kernel.lines import lines
from wholeball.planning.rule import Strength

Record: TypeAlias = MutableMapping[str, Any]
_RULES: Final = "rules"
_WHAT: Final = "The rules"


def with_rule(data: bytes, record: Mapping[str, Any]) -> bytes:
    """Return planning.toml with a rule more, the last; without a file, with one that has it.

    Raises:
        WholeballError: the file does not let it be written without the rest.
    """
    return behind_mark(data, lambda text: _with_rule(text, record))


def _with_rule(data: bytes, record: Mapping[str, Any]) -> bytes:
    data = data or with_amount(b"", games_each=None, meetings=1)
    if _in_one_list(data):
        return _judged(
            data, _edited(data, lambda rules: rules.append(_inline(record))), _add(record)
        )
    table = tomlkit.dumps({_RULES: [dict(record)]})
    end = "\r\n" if b"\r\n" in data else "\n"
    before = data.decode()
    before += "" if before.endswith("\n") else end
    text = before + end + table.replace("\n", end)
    return _judged(data, text.encode(), _add(record))


def without_rule(data: bytes, index: int) -> bytes:
    """Return planning.toml without a rule by its place; comments between rules stay.

    Raises:
        WholeballError: the file does not let it be taken out without the rest.
    """
    return behind_mark(data, lambda text: _without_rule(text, index))


def _without_rule(data: bytes, index: int) -> bytes:
    def gone(rules: list[Record]) -> None:
        del rules[index]

    if _in_one_list(data):
        return _judged(data, _edited(data, gone), gone)
    before, _, after = _apart(data, index)
    is_parted = not before or not before[-1].strip()
    rest = after[1:] if is_parted and after and not after[0].strip() else after
    return _judged(data, "".join(before + rest).encode(), gone)


def with_strength(data: bytes, index: int, strength: Strength, cost: int | None) -> bytes:
    """Return planning.toml with a rule that is a must, or a wish of that cost.

    Raises:
        WholeballError: the file does not let it be changed without the rest.
    """
    return behind_mark(data, lambda text: _with_strength(text, index, strength, cost))


def _with_strength(data: bytes, index: int, strength: Strength, cost: int | None) -> bytes:
    def set_one(rule: Record) -> None:
        rule["strength"] = strength
        if cost is None:
            rule.pop("cost", None)
        else:
            rule["cost"] = cost

    def change(rules: list[Record]) -> None:
        set_one(rules[index])

    if _in_one_list(data):
        return _judged(data, _edited(data, change), change)
    before, own, after = _apart(data, index)
    part = _edited("".join(own).encode(), lambda rules: set_one(rules[0])).decode()
    return _judged(data, "".join([*before, part, *after]).encode(), change)


def _in_one_list(data: bytes) -> bool:
    """Tell whether the rules stand as `rules = [...]`, and not each as a table of its own."""
    return isinstance(_document(data).get(_RULES), Array)


def _document(data: bytes) -> TOMLDocument:
    found: list[TOMLDocument] = []
    edited(data, found.append, what=_WHAT, file=FILE)
    return found[0]


def _edited(data: bytes, change: Callable[[list[Record]], None]) -> bytes:
    return edited(data, lambda document: change(document[_RULES]), what=_WHAT, file=FILE)


def _apart(data: bytes, index: int) -> tuple[list[str], list[str], list[str]]:
    """Return the lines before a rule, its own, and those after: comments at its end are not its.

    Raises:
        WholeballError: the rule is no table of its own.
    """
    text = data.decode()
    loc = (_RULES, index)
    at = lines(text)
    if loc not in at:
        raise refused_edit(_WHAT, FILE)
    first = at[loc]
    later = [line for key, line in at.items() if line > first and key[:2] != loc]
    rows = list(io.StringIO(text, newline="\n"))
    last = min(later, default=len(rows) + 1) - 1
    while rows[last - 1].strip() == "" or rows[last - 1].lstrip().startswith("#"):
        last -= 1
    return rows[: first - 1], rows[first - 1 : last], rows[last:]


def _inline(record: Mapping[str, Any]) -> Any:
    table = tomlkit.inline_table()
    table.update(record)
    return table


def _add(record: Mapping[str, Any]) -> Callable[[list[Record]], None]:
    return lambda rules: rules.append(dict(record))


def _judged(before: bytes, after: bytes, change: Callable[[list[Record]], None]) -> bytes:
    """Return the file as it would be, where it says what it said but for the change.

    Raises:
        WholeballError: it says anything else.
    """
    try:
        said = {_RULES: [], **tomllib.loads(after.decode())}
    except tomllib.TOMLDecodeError as error:
        raise refused_edit(_WHAT, FILE) from error
    expected = {_RULES: [], **tomllib.loads(before.decode())}
    change(expected[_RULES])
    if said != expected:
        raise refused_edit(_WHAT, FILE)
    return after
