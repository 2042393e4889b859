"""Writes files into a folder, all of them or none."""

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from wholeball.kernel.faults import WholeballError


def write_new_folder(folder: Path, contents: Mapping[str, bytes]) -> None:
    """Make a folder that is not there yet, or is empty, with these files.

    Raises:
        WholeballError: something is there already, or the disk refuses.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise WholeballError(
            f"{folder} is there already and not empty.",
            fix="Nothing was written. Name another folder.",
            code="path",
        )
    write_files(folder, contents)


def write_files(folder: Path, contents: Mapping[str, bytes]) -> None:
    """Write files by their paths inside a folder, over what stands there under those names.

    Everything is written beside the folder first and moved in at the end, so that a full disk
    leaves the folder as it was.

    Raises:
        WholeballError: the disk refuses.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        staged = Path(tempfile.mkdtemp(prefix=".wholeball-", dir=folder))
        try:
            _stage(staged, contents)
            _move_in(staged, folder, contents)
        finally:
            shutil.rmtree(staged, ignore_errors=True)
    except OSError as error:
        raise WholeballError(
            f"{error.filename or folder} cannot be written: {error.strerror}.",
            fix="Check the disk and the folder's permissions.",
            code="storage",
        ) from error


def _stage(staged: Path, contents: Mapping[str, bytes]) -> None:
    for name, data in contents.items():
        path = staged / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)


def _move_in(staged: Path, folder: Path, contents: Mapping[str, bytes]) -> None:
    for name in contents:
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        os.replace(staged / name, target)  # noqa: PTH105 - the one call that is atomic
