"""Keeps the texts of a season in memory, to be read by whoever reads a record."""

from collections.abc import Callable, Collection, Mapping
from collections.abc import Set as AbstractSet
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from errno import EISDIR, ENOENT
from os import strerror
from threading import RLock
from typing import Any, NoReturn, Protocol, TypeVar, runtime_checkable

from wholeball.kernel.faults import WholeballError
from wholeball.league.ways import Way, on_pages

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Texts:
    """Texts by their names: a `LeagueRecord` that can only be read."""

    place: str
    texts: Mapping[str, bytes]

    @property
    def way(self) -> Way:
        """The pages: texts in memory are those of a site."""
        return on_pages

    def called(self, name: str) -> str:
        """Return the name, and where it stands."""
        return f"{name} of {self.place}"

    def refuse_missing(self) -> None:
        """Refuse a record in which nothing stands.

        Raises:
            WholeballError: nothing stands in it.
        """
        if not self.texts:
            raise WholeballError(
                f"{self.place} has no facts yet.",
                fix="Import a season folder, or start from a preset.",
                code="path",
            )

    def has(self, name: str) -> bool:
        """Tell whether something stands under a name, or in a folder of that name."""
        return name in self.texts or bool(name and self.names(name))

    def names(self, inside: str) -> tuple[str, ...]:
        """Return the names of what stands inside a folder, in order."""
        start = f"{inside}/" if inside else ""
        under = (name.removeprefix(start) for name in self.texts if name.startswith(start))
        return tuple(sorted({name.partition("/")[0] for name in under}))

    def read(self, name: str, most: int) -> bytes:
        """Return what stands under a name, at most one byte more than `most`.

        Raises:
            FileNotFoundError: nothing stands there.
            IsADirectoryError: it is a folder.
        """
        if name not in self.texts:
            number = EISDIR if self.has(name) else ENOENT
            raise OSError(number, strerror(number), self.called(name))
        return self.texts[name][: most + 1]

    def held(self) -> AbstractContextManager[None]:
        """Refuse: it can only be read."""
        return self._refuse()

    def write(
        self,
        contents: Mapping[str, bytes],
        *,
        private: AbstractSet[str] = frozenset(),
        gone: Collection[str] = (),
    ) -> None:
        """Refuse: it can only be read."""
        del contents, private, gone
        self._refuse()

    def append(self, name: str, lines: bytes) -> None:
        """Refuse: it can only be read."""
        del name, lines
        self._refuse()

    def _refuse(self) -> NoReturn:
        message = f"{self.place} can only be read"
        raise ValueError(message)


class Made:
    """What was made of texts that never change, by what it is called: each once."""

    def __init__(self, parts: Mapping[str, tuple[object, Any]] | None = None) -> None:
        """Begin with nothing made, or with the parts of what was made before."""
        self._made: dict[str, Any] = {}
        self._making = RLock()
        self._parts = dict(parts or {})

    @property
    def has_parts(self) -> bool:
        """Whether any part is made, of this version or of the one before."""
        return bool(self._parts)

    def once(self, name: str, make: Callable[[], _T]) -> _T:
        """Return what has a name, made where it is not there; others wait for who makes it."""
        with self._making:
            if name not in self._made:
                self._made[name] = make()
            found: _T = self._made[name]
        return found

    def part(self, name: str, given: object, make: Callable[[], _T]) -> _T:
        """Return a part of what is made, made again only where it was given something else.

        `given` is all that it is made of.
        """
        was, found = self._parts.get(name, (None, None))
        if found is None or was != given:
            found = make()
            self._parts[name] = given, found
        told: _T = found
        return told

    def next(self) -> "Made":
        """Return where a later version begins: with the parts of this one."""
        return Made(self._parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class LastingTexts(Texts):
    """Texts that never change, and what was made of them for all who read them."""

    made: Made = field(default_factory=Made, compare=False, repr=False)


@runtime_checkable
class Changing(Protocol):
    """A record that others may change, which knows how it stands at a moment."""

    def as_it_stands(self) -> LastingTexts:
        """Return every text of it that a season is read from, as they all stand at once."""
