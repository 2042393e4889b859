"""Keeps a season in a folder: each of its names is a file."""

import os
from collections.abc import Collection, Mapping
from collections.abc import Set as AbstractSet
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path

from wholeball.files.bounded import is_there, read_at_most
from wholeball.files.commands import Commands
from wholeball.files.hold import held_folder
from wholeball.files.refused_by_disk import told_of_disk
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.files.write import write_files
from wholeball.kernel.faults import WholeballError


@dataclass(frozen=True, slots=True)
class FolderRecord:
    """The folder at a path, as what keeps the facts of a season: a `LeagueRecord`."""

    path: Path

    @property
    def place(self) -> str:
        """The path as it was given."""
        return str(self.path)

    @property
    def way(self) -> Commands:
        """The commands for this folder."""
        return Commands(str(self.path))

    def called(self, name: str) -> str:
        """Return the path of a file."""
        return str(self.path / name)

    def refuse_missing(self) -> None:
        """Refuse what is no folder.

        Raises:
            WholeballError: nothing is there, or a file.
        """
        if is_there(self.path) and self.path.is_file():
            raise _no_file(self.path)
        if not is_there(self.path) or not self.path.is_dir():
            raise WholeballError(
                f"{self.path} is no folder.",
                fix=f"Make one with: {self.way('begin')}",
                code="path",
            )

    def has(self, name: str) -> bool:
        """Tell whether something stands under a name; a name no disk can hold is not there."""
        return is_there(self.path / name)

    def names(self, inside: str) -> tuple[str, ...]:
        """Return the names of what stands in a folder of it; the empty name is the whole.

        Raises:
            OSError: it is no folder, or cannot be listed.
        """
        folder = self.path / inside
        if not is_there(folder):
            return ()
        return tuple(sorted(os.listdir(folder)))  # noqa: PTH208 - names are all it takes

    def read(self, name: str, most: int) -> bytes:
        """Return the bytes of a file, at most one more than `most`.

        Raises:
            OSError: it cannot be read, or is a folder, a device or a pipe.
        """
        return read_at_most(self.path / name, most)

    def held(self) -> AbstractContextManager[None]:
        """Hold the folder against other writers, of this process and of any other."""
        return held_folder(self.path)

    def write(
        self,
        contents: Mapping[str, bytes],
        *,
        private: AbstractSet[str] = frozenset(),
        gone: Collection[str] = (),
    ) -> None:
        """Write files, all or none, and take out those that are `gone`.

        Raises:
            WholeballError: the disk refuses; the folder's files are as they were.
        """
        write_files(self.path, contents, private=private, gone=gone)

    def append(self, name: str, lines: bytes) -> None:
        """Add lines at the end of a file, all or none, and wait for the disk.

        The lines that stand are copied as they are and the new ones put behind them; the copy
        takes the file's place at once.

        Raises:
            WholeballError: the disk refuses; the file is as it was.
        """
        path = self.path / name
        with told_of_disk(str(path), "written"):
            path.parent.mkdir(exist_ok=True)
            _replace(path, (path.read_bytes() if is_there(path) else b"") + lines)
            _wait_for(path.parent)


def _no_file(file: Path) -> WholeballError:
    is_of_season = is_there(file.parent / SEASON_FILE)
    cure = (
        f"Name its folder: {file.parent}"
        if is_of_season
        else "Name the folder that holds the season's files."
    )
    return WholeballError(
        f"{file} is a file; a season folder is wanted.", fix=cure, code="path"
    )


def _replace(path: Path, data: bytes) -> None:
    staged = path.with_name(f".{path.name}.new")
    try:
        with staged.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        staged.replace(path)
    finally:
        staged.unlink(missing_ok=True)


def _wait_for(folder: Path) -> None:
    """Wait until the disk has the names of a folder."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
