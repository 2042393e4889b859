"""Adds a rule to planning.toml, changes one or takes one out; all else stays byte for byte."""

from collections.abc import Mapping
from typing import Any, Final

from wholeball.files.planning_edit import with_amount
from wholeball.files.planning_toml import FILE
from wholeball.files.toml_edit import behind_mark
from wholeball.files.toml_records import Change, Record, TomlRecords, inline, line_end
from wholeball.planning.rule import Strength

_RULES: Final = TomlRecords(key="rules", what="The rules", file=FILE)


def with_rule(data: bytes, record: Mapping[str, Any]) -> bytes:
    """Return planning.toml with a rule more, the last; without a file, with one that has it.

    Raises:
        WholeballError: the file does not let it be written without the rest.
    """
    return behind_mark(data, lambda text: _with_rule(text, record))


def _with_rule(data: bytes, record: Mapping[str, Any]) -> bytes:
    data = data or with_amount(b"", games_each=None, meetings=1)
    if _RULES.in_one_list(data):
        text = _RULES.edited(data, lambda rules: rules.append(inline(record)))
        return _RULES.judged(data, text, _add(record))
    end = line_end(data)
    before = data.decode()
    before += "" if before.endswith("\n") else end
    text = f"{before}{end}{_RULES.table(record, end)}".encode()
    return _RULES.judged(data, text, _add(record))


def without_rule(data: bytes, index: int) -> bytes:
    """Return planning.toml without a rule by its place; comments between rules stay.

    Raises:
        WholeballError: the file does not let it be taken out without the rest.
    """
    return behind_mark(data, lambda text: _without_rule(text, index))


def _without_rule(data: bytes, index: int) -> bytes:
    def gone(rules: list[Record]) -> None:
        del rules[index]

    if _RULES.in_one_list(data):
        return _RULES.judged(data, _RULES.edited(data, gone), gone)
    before, _, after = _RULES.apart(data, index)
    is_parted = not before or not before[-1].strip()
    rest = after[1:] if is_parted and after and not after[0].strip() else after
    return _RULES.judged(data, "".join(before + rest).encode(), gone)


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

    if _RULES.in_one_list(data):
        return _RULES.judged(data, _RULES.edited(data, change), change)
    before, own, after = _RULES.apart(data, index)
    part = _RULES.edited("".join(own).encode(), lambda rules: set_one(rules[0])).decode()
    return _RULES.judged(data, "".join([*before, part, *after]).encode(), change)


def _add(record: Mapping[str, Any]) -> Change:
    return lambda rules: rules.append(dict(record))
