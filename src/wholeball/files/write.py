"""Writes files into a folder, all of them or none."""

import os
import shutil
import tempfile
from collections.abc import Collection, Iterable, Mapping
from collections.abc import Set as AbstractSet
from pathlib import Path

from wholeball.files.bounded import is_there
from wholeball.kernel.faults import WholeballError


def write_files(
    folder: Path,
    contents: Mapping[str, bytes],
    *,
    private: AbstractSet[str] = frozenset(),
    gone: Collection[str] = (),
) -> None:
    """Write files by their paths inside a folder, over what stands there under those names.

    The files of it that are `gone` are taken out.

    Everything is written beside the folder first and moved in at the end; where the disk
    refuses on the way, what was moved in is taken out and what it replaced is put back.

    Raises:
        WholeballError: the disk refuses; the folder's files are as they were.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        staged = Path(tempfile.mkdtemp(prefix=".wholeball-", dir=folder))
        try:
            _stage(staged / "new", contents, private)
            _move_in(staged, folder, contents, gone)
        finally:
            shutil.rmtree(staged, ignore_errors=True)
    except OSError as error:
        raise WholeballError(
            f"{_at_fault(error, folder)} cannot be written: {error.strerror}.",
            fix="Nothing was changed. Check the disk and the folder's permissions.",
            code="storage",
        ) from error


def write_places(places: Mapping[Path, Mapping[str, bytes]]) -> None:
    """Write files into several folders, all or none.

    Where a later folder refuses, the files of earlier ones are taken out again or put back,
    and folders made for them are taken away.

    Raises:
        WholeballError: the disk refuses; every folder is as it was.
    """
    before = {folder: _held(folder, contents) for folder, contents in places.items()}
    made = [_missing(folder / name) for folder, names in places.items() for name in names]
    written: list[Path] = []
    try:
        for folder, contents in places.items():
            write_files(folder, contents)
            written.append(folder)
    except WholeballError:
        for folder in written:
            _restore(folder, before[folder])
        for parent in sorted({one for some in made for one in some}, reverse=True):
            if parent.is_dir() and not any(parent.iterdir()):
                parent.rmdir()
        raise


def _held(folder: Path, names: Iterable[str]) -> dict[str, bytes | None]:
    """Return what stands in a folder under these names; None where nothing does."""
    paths = {name: folder / name for name in names}
    return {name: path.read_bytes() if path.is_file() else None for name, path in paths.items()}


def _missing(path: Path) -> list[Path]:
    return [parent for parent in path.parents if not is_there(parent)]


def _restore(folder: Path, held: Mapping[str, bytes | None]) -> None:
    for name, data in held.items():
        if data is None:
            (folder / name).unlink()
        else:
            (folder / name).write_bytes(data)


def _at_fault(error: OSError, folder: Path) -> Path:
    """Return the path a person knows: the target where there is one, never the staging place."""
    for name in (error.filename2, error.filename):
        if name is not None and ".wholeball-" not in str(name):
            return Path(name)
    return folder


def _stage(new: Path, contents: Mapping[str, bytes], private: AbstractSet[str]) -> None:
    for name, data in contents.items():
        path = new / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.touch(mode=0o600 if name in private else 0o666)
        path.write_bytes(data)


def _move_in(staged: Path, folder: Path, names: Iterable[str], gone: Collection[str]) -> None:
    moved: list[str] = []
    try:
        for name in names:
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            _keep(target, staged / "old" / name)
            os.replace(staged / "new" / name, target)  # noqa: PTH105 - the one call that is atomic
            moved.append(name)
        for name in gone:
            _take_out(folder / name, staged / "old" / name)
            moved.append(name)
    except OSError:
        for name in moved:
            _put_back(staged / "old" / name, folder / name)
        raise


def _take_out(target: Path, old: Path) -> None:
    old.parent.mkdir(parents=True, exist_ok=True)
    os.replace(target, old)  # noqa: PTH105 - the one call that is atomic


def _keep(target: Path, old: Path) -> None:
    if target.is_file():
        old.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(target, old)


def _put_back(old: Path, target: Path) -> None:
    if old.exists():
        old.replace(target)
    else:
        target.unlink()
