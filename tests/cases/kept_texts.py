"""Keeps a season in memory, so that a test sees what is done without any disk."""

from collections.abc import Collection, Iterator, Mapping
from collections.abc import Set as AbstractSet
from contextlib import contextmanager
from dataclasses import dataclass, field
from errno import EISDIR, ENOENT
from os import strerror
from pathlib import Path

from wholeball.files.commands import Commands
from wholeball.kernel.faults import WholeballError


@dataclass(slots=True, kw_only=True)
class KeptTexts:
    """A `LeagueRecord` of texts in memory, under the name of a folder that is nowhere."""

    place: str
    texts: dict[str, bytes] = field(default_factory=dict)
    private: set[str] = field(default_factory=set)
    is_held: bool = False

    @property
    def way(self) -> Commands:
        return Commands(self.place)

    def called(self, name: str) -> str:
        return str(Path(self.place) / name)

    def refuse_missing(self) -> None:
        if not self.texts:
            raise WholeballError(
                f"{self.place} is no folder.",
                fix=f"Make one with: wholeball new {self.place}",
                code="path",
            )

    def has(self, name: str) -> bool:
        return name in self.texts or bool(self.names(name))

    def names(self, inside: str) -> tuple[str, ...]:
        start = inside and f"{inside}/"
        under = (name.removeprefix(start) for name in self.texts if name.startswith(start))
        return tuple(sorted({name.partition("/")[0] for name in under}))

    def read(self, name: str, most: int) -> bytes:
        if name not in self.texts:
            number = EISDIR if self.has(name) else ENOENT
            raise OSError(number, strerror(number), self.called(name))
        return self.texts[name][: most + 1]

    @contextmanager
    def held(self) -> Iterator[None]:
        assert not self.is_held, "whoever holds it does not hold it twice"
        self.is_held = True
        try:
            yield
        finally:
            self.is_held = False

    def write(
        self,
        contents: Mapping[str, bytes],
        *,
        private: AbstractSet[str] = frozenset(),
        gone: Collection[str] = (),
    ) -> None:
        self.texts.update(contents)
        self.private |= private
        for name in gone:
            del self.texts[name]

    def append(self, name: str, lines: bytes) -> None:
        assert self.is_held, "a log is added to while it is held"
        self.texts[name] = self.texts.get(name, b"") + lines
