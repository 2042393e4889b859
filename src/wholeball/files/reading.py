"""Reads the files of one record, and gathers their faults until all of them have been seen."""

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from typing import TypeVar

from wholeball.files.row_faults import Known
from wholeball.files.table import MOST_BYTES, Table
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.league.record import LeagueRecord
from wholeball.league.texts import LastingTexts

_T = TypeVar("_T")


class Reading:
    """One record while it is read, with some of its files read otherwise."""

    def __init__(self, record: LeagueRecord, instead: Mapping[str, bytes]) -> None:
        self.record = record
        self.faults: list[Fault] = []
        self._instead = instead

    def file(self, name: str, read: Callable[[bytes], _T]) -> _T | None:
        """Return what a file holds, or None where it cannot be read.

        Where `read` is a `partial`, which tells all that it goes by, a file that has not changed
        is not read again for the next version of a season.
        """
        try:
            given = self._instead.get(name)
            if given is not None:
                return read(given)
            data = self.record.read(name, MOST_BYTES)
            if isinstance(read, partial) and isinstance(self.record, LastingTexts):
                by = (data, read.func, read.args, read.keywords)
                found: _T = self.record.made.part(name, by, lambda: read(data))
                return found
            return read(data)
        except InputFaults as refused:
            self.faults.extend(refused.faults)
        except OSError as error:
            cure = self._cure(name, error)
            says = f"the file cannot be read: {error.strerror}."
            self.faults.append(
                Fault(code="missing_file", place=Place(file=name), says=says, cure=cure)
            )
        return None

    def names(self, inside: str) -> tuple[str, ...]:
        """Return what stands in a folder, in order, with what is only being tried.

        Raises:
            OSError: it cannot be listed.
        """
        start = f"{inside}/"
        tried = (one.removeprefix(start) for one in self._instead if one.startswith(start))
        return tuple(sorted({*self.record.names(inside), *tried}))

    def _cure(self, name: str, error: OSError) -> str:
        if isinstance(error, FileNotFoundError):
            return f"Write it, or start from a preset: {self.record.way('begin')}"
        if isinstance(error, PermissionError):
            return f"Let your account read {name}."
        return (
            f"Move away what stands at {name}, and write the file there if the season needs it."
        )

    def table(self, name: str, read: Callable[[bytes], tuple[_T, Table]]) -> _T | None:
        """Return what a table holds; its faults are gathered in the order of its rows."""
        both = self.file(name, read)
        if both is None:
            return None
        values, table = both
        self.faults.extend(sorted(table.faults, key=lambda fault: fault.place.row or 0))
        return values

    def rows(
        self, name: str, read: Callable[[bytes], tuple[tuple[_T, ...], Table]]
    ) -> tuple[_T, ...]:
        """Return what the rows of a table hold; nothing where there is no such file."""
        return (self.table(name, read) or ()) if self.has(name) else ()

    def has(self, name: str) -> bool:
        """Tell whether there is a file of that name."""
        return name in self._instead or self.record.has(name)

    def is_wrong(self, *files: str) -> bool:
        """Tell whether one of some files has a fault."""
        return any(one.level == "fault" and one.place.file in files for one in self.faults)

    def known(self, names: Iterable[str], *files: str) -> Known | None:
        """Return the names that files hold, or None where one of the files has a fault."""
        otherwise = f"Use a name of {' or '.join(files)}."
        return None if self.is_wrong(*files) else Known(names, otherwise)
