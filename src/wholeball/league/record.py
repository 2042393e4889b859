"""Says what keeps the facts of a season: a folder on a disk, or the rows of a database.

Both give and take the same named texts, those of a season folder, so that whoever reads or
writes a season need not know which of them it is. Nothing computed is ever kept in it.
"""

from collections.abc import Collection, Mapping
from collections.abc import Set as AbstractSet
from contextlib import AbstractContextManager
from typing import Protocol

from wholeball.league.ways import Way


class LeagueRecord(Protocol):
    """Keeps what a season was told, by the names of a season folder's files.

    A name is relative, its parts parted by `/`: "teams.csv", "games/31.jsonl".
    """

    @property
    def place(self) -> str:
        """What people call it: the path of a folder, or the name of a season."""

    @property
    def way(self) -> Way:
        """How people do something to it: by commands, or on pages."""

    def called(self, name: str) -> str:
        """Return what people call that which stands under a name: the path of a file."""

    def refuse_missing(self) -> None:
        """Refuse a record that is not there.

        Raises:
            WholeballError: it is not there.
        """

    def has(self, name: str) -> bool:
        """Tell whether something stands under a name; a name nothing can have is not there."""

    def names(self, inside: str) -> tuple[str, ...]:
        """Return the names of what stands inside a folder, in order; none where it is not there.

        The whole record is the folder without a name.

        Raises:
            OSError: it cannot be listed.
        """

    def read(self, name: str, most: int) -> bytes:
        """Return what stands under a name, at most one byte more than `most`.

        Raises:
            FileNotFoundError: nothing stands there.
            OSError: it cannot be read.
        """

    def held(self) -> AbstractContextManager[None]:
        """Let one writer at a time read, judge and write; others wait.

        A record that is not there is left to `refuse_missing`.

        Raises:
            OSError: it cannot be held.
        """

    def write(
        self,
        contents: Mapping[str, bytes],
        *,
        private: AbstractSet[str] = frozenset(),
        gone: Collection[str] = (),
    ) -> None:
        """Write all of it or nothing, over what stands there, and take out what is `gone`.

        It begins a record that is not there.

        Only their owner may ever read those named in `private`.

        Raises:
            WholeballError: it cannot be kept; everything is as it was.
        """

    def append(self, name: str, lines: bytes) -> None:
        """Add lines at the end of a log, all or none, and wait until they cannot be lost.

        Raises:
            WholeballError: they cannot be kept; the log is as it was.
        """
