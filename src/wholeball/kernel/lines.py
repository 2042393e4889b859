"""Finds the line on which each key of a TOML text stands; run only where there is a fault."""

import re
import tomllib
from bisect import bisect_right
from collections.abc import Callable
from typing import Final, TypeAlias

Loc: TypeAlias = tuple[str | int, ...]

_PART: Final = r'(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]++|\\.)*+"|\'[^\'\n]*\')'
_NAME = re.compile(_PART)
_KEY = re.compile(rf"{_PART}(?:[ \t]*\.[ \t]*{_PART})*")
_HEADER = re.compile(rf"(\[\[?)[ \t]*({_KEY.pattern})[ \t]*\]\]?")
_SPACE = re.compile(r"(?:[\s,=]|\#[^\n]*)*")
_SCALAR = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:[^"\\\n]++|\\.)*+"|\'[^\'\n]*\''
    r"|[^,\[\]{}\#\n]+",
    re.DOTALL,
)


def lines(text: str) -> dict[Loc, int]:
    """Return the line, from 1, of each key, table and list item of a valid TOML text.

    Where a table is opened in several places, the first counts; one that only keys or tables
    inside it open, such as goalkeeper in goalkeeper.hold, stands where they do. O(n log n) in
    the text.
    """
    return _Scan(text).document()


class _Scan:
    """Walks once over a text that a TOML reader has already accepted."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.found: dict[Loc, int] = {}
        self.implied: dict[Loc, int] = {}
        self.ends = [found.start() for found in re.finditer("\n", text)]
        self.lists: dict[Loc, int] = {}

    def document(self) -> dict[Loc, int]:
        table: Loc = ()
        self._skip()
        while self.at < len(self.text):
            header = _HEADER.match(self.text, self.at)
            if header is None:
                self._pair(table)
            else:
                table = self._table(header)
                self.at = header.end()
            self._skip()
        return self.implied | self.found

    def _table(self, header: re.Match[str]) -> Loc:
        loc = self._in_lists(_names(header[2]))
        if header[1] == "[[":
            self.lists[loc] = self.lists.get(loc, -1) + 1
            loc = (*loc, self.lists[loc])
        self._note(loc)
        return loc

    def _in_lists(self, names: Loc) -> Loc:
        loc: Loc = ()
        for index, name in enumerate(names):
            loc = (*loc, name)
            if index < len(names) - 1 and loc in self.lists:
                loc = (*loc, self.lists[loc])
        return loc

    def _pair(self, table: Loc) -> None:
        key = _KEY.match(self.text, self.at)
        if key is None:
            message = f"no key at offset {self.at}; the text was not read as TOML before"
            raise ValueError(message)
        loc = (*table, *_names(key[0]))
        self._note(loc)
        self.at = key.end()
        self._skip()
        self._value(loc)

    def _value(self, loc: Loc) -> None:
        if self.text[self.at] == "[":
            self._items(loc)
        elif self.text[self.at] == "{":
            self._inside("}", lambda _: self._pair(loc))
        else:
            self._scalar()

    def _items(self, loc: Loc) -> None:
        def item(index: int) -> None:
            self._note((*loc, index))
            self._value((*loc, index))

        self._inside("]", item)

    def _inside(self, close: str, read: Callable[[int], None]) -> None:
        self.at += 1
        self._skip()
        index = 0
        while self.text[self.at] != close:
            read(index)
            self._skip()
            index += 1
        self.at += 1

    def _scalar(self) -> None:
        found = _SCALAR.match(self.text, self.at)
        self.at = found.end() if found is not None else self.at + 1

    def _skip(self) -> None:
        found = _SPACE.match(self.text, self.at)
        self.at = found.end() if found is not None else self.at

    def _note(self, loc: Loc) -> None:
        line = bisect_right(self.ends, self.at - 1) + 1
        self.found.setdefault(loc, line)
        for length in range(1, len(loc)):
            self.implied.setdefault(loc[:length], line)


def _names(key: str) -> tuple[str, ...]:
    return tuple(_name(part) for part in _NAME.findall(key))


def _name(part: str) -> str:
    if part.startswith("'"):
        return part[1:-1]
    return str(tomllib.loads(f"name = {part}")["name"]) if part.startswith('"') else part
