"""Changes a list of records in a TOML file, and leaves all else byte for byte (ADR 0019).

tomlkit moves comments where a table is put between others, so that it is given the lines of one
record alone; what comes of it is read back before it is kept.
"""

import io
import tomllib
from collections.abc import Callable, Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import tomlkit
from tomlkit.items import Array
from tomlkit.toml_document import TOMLDocument

from wholeball.files.toml_edit import edited, refused_edit
from wholeball.kernel.lines import lines

Record: TypeAlias = MutableMapping[str, Any]
Change: TypeAlias = Callable[[list[Record]], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class TomlRecords:
    """A list of records by its key in a file; `what` says of what, as a subject."""

    key: str
    what: str
    file: str

    def in_one_list(self, data: bytes) -> bool:
        """Tell whether the records stand as `key = [...]`, and not each as a table of its own."""
        found: list[TOMLDocument] = []
        edited(data, found.append, what=self.what, file=self.file)
        return isinstance(found[0].get(self.key), Array)

    def said(self, data: bytes) -> list[Record]:
        """Return the records as a text has them.

        Raises:
            WholeballError: it is no TOML, or they are no list.
        """
        try:
            records = tomllib.loads(data.decode()).get(self.key, [])
        except tomllib.TOMLDecodeError as error:
            raise refused_edit(self.what, self.file) from error
        if not isinstance(records, list):
            raise refused_edit(self.what, self.file)
        return records

    def edited(self, data: bytes, change: Change) -> bytes:
        """Return a text with its records changed in place."""
        return edited(
            data, lambda document: change(document[self.key]), what=self.what, file=self.file
        )

    def apart(self, data: bytes, index: int) -> tuple[list[str], list[str], list[str]]:
        """Return the lines before a record, its own, and those after.

        Comments at its end are not its.

        Raises:
            WholeballError: the record is no table of its own.
        """
        rows = list(io.StringIO(data.decode(), newline="\n"))
        ((first, last),) = self.spans(data, [index])
        return rows[:first], rows[first:last], rows[last:]

    def spans(self, data: bytes, indexes: Sequence[int]) -> list[tuple[int, int]]:
        """Return the first line of each record, from 0, and the one behind its last.

        Raises:
            WholeballError: one is no table of its own.
        """
        text = data.decode()
        at = lines(text)
        rows = list(io.StringIO(text, newline="\n"))
        found = []
        for loc in ((self.key, index) for index in indexes):
            if loc not in at:
                raise refused_edit(self.what, self.file)
            first = at[loc]
            later = [line for key, line in at.items() if line > first and key[:2] != loc]
            last = min(later, default=len(rows) + 1) - 1
            while rows[last - 1].strip() == "" or rows[last - 1].lstrip().startswith("#"):
                last -= 1
            found.append((first - 1, last))
        return found

    def table(self, record: Mapping[str, Any], end: str) -> str:
        """Return a record as a table of its own, with the line ends of its file."""
        return tomlkit.dumps({self.key: [dict(record)]}).replace("\n", end)

    def judged(self, before: bytes, after: bytes, change: Change) -> bytes:
        """Return the file as it would be, where it says what it said but for the change.

        Raises:
            WholeballError: it says anything else.
        """
        try:
            said = {self.key: [], **tomllib.loads(after.decode())}
        except tomllib.TOMLDecodeError as error:
            raise refused_edit(self.what, self.file) from error
        expected = {self.key: [], **tomllib.loads(before.decode())}
        change(expected[self.key])
        if said != expected:
            raise refused_edit(self.what, self.file)
        return after


def line_end(data: bytes) -> str:
    """Return how the lines of a text end."""
    return "\r\n" if b"\r\n" in data else "\n"


def inline(record: Mapping[str, Any]) -> Any:
    """Return a record as it stands in a list on one line."""
    table = tomlkit.inline_table()
    table.update(record)
    return table
