"""Lets a folder inside a record be a record of its own, such as that of one draw of lots."""

from collections.abc import Collection, Mapping
from collections.abc import Set as AbstractSet
from contextlib import AbstractContextManager
from dataclasses import dataclass

from wholeball.league.record import LeagueRecord
from wholeball.league.ways import Way


@dataclass(frozen=True, slots=True)
class Within:
    """A folder of a record, as a `LeagueRecord`."""

    record: LeagueRecord
    folder: str

    @property
    def place(self) -> str:
        """What people call the folder."""
        return self.record.called(self.folder)

    @property
    def way(self) -> Way:
        """How people do something to the whole."""
        return self.record.way

    def called(self, name: str) -> str:
        """Return what people call that which stands under a name."""
        return self.record.called(self.inside(name))

    def refuse_missing(self) -> None:
        """Refuse a whole that is not there."""
        self.record.refuse_missing()

    def has(self, name: str) -> bool:
        """Tell whether something stands under a name."""
        return self.record.has(self.inside(name))

    def names(self, inside: str) -> tuple[str, ...]:
        """Return the names of what stands inside a folder of it, in order."""
        return self.record.names(self.inside(inside) if inside else self.folder)

    def read(self, name: str, most: int) -> bytes:
        """Return what stands under a name, at most one byte more than `most`."""
        return self.record.read(self.inside(name), most)

    def held(self) -> AbstractContextManager[None]:
        """Let one writer at a time read, judge and write the whole."""
        return self.record.held()

    def write(
        self,
        contents: Mapping[str, bytes],
        *,
        private: AbstractSet[str] = frozenset(),
        gone: Collection[str] = (),
    ) -> None:
        """Write all of it or nothing, over what stands there."""
        self.record.write(
            {self.inside(name): data for name, data in contents.items()},
            private=frozenset(map(self.inside, private)),
            gone=tuple(map(self.inside, gone)),
        )

    def append(self, name: str, lines: bytes) -> None:
        """Add lines at the end of a log."""
        self.record.append(self.inside(name), lines)

    def inside(self, name: str) -> str:
        """Return what the whole calls that which stands under a name."""
        return f"{self.folder}/{name}"
