"""Writes a folder of pages that can be made again: over its own files, never over others.

A list in the folder names each file written there with its digest, in the form that sha256sum
checks. It tells our files from those that somebody else put there.
"""

import re
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path, PurePosixPath
from typing import Final

from wholeball.files.bounded import is_there, read_at_most
from wholeball.files.write import write_files
from wholeball.kernel.faults import WholeballError

LIST: Final = "wholeball-pages.txt"
MOST_BYTES: Final = 10_000_000
_SHOWN: Final = 3
_LINE = re.compile(r"([0-9a-f]{64})  (.+)")


def write_pages(folder: Path, pages: Mapping[str, bytes]) -> None:
    """Write pages into a folder, and take out those of an earlier time that are no more.

    A page of an earlier time that somebody has changed since is left where it is.

    Raises:
        WholeballError: files that were not written here stand in the way, the list of what was
            written cannot be read, or the disk refuses; the folder is as it was.
    """
    made = _made(folder / LIST)
    foreign = [name for name in (*pages, LIST) if name not in made and is_there(folder / name)]
    if foreign:
        raise _in_the_way(folder, foreign)
    stale = [
        name
        for name, digest in made.items()
        if name not in pages and name != LIST and _digest_of(folder / name) == digest
    ]
    write_files(folder, {**pages, LIST: _listed(pages)}, gone=stale)


def _in_the_way(folder: Path, foreign: list[str]) -> WholeballError:
    more = f" and {len(foreign) - _SHOWN} more" if len(foreign) > _SHOWN else ""
    others = "files" if len(foreign) > 1 else "a file"
    return WholeballError(
        f"{folder} has {others} of another origin in the way: "
        f"{', '.join(foreign[:_SHOWN])}{more}.",
        fix="Nothing was written. Name another folder, or move them away.",
        code="path",
    )


def _made(listing: Path) -> dict[str, str]:
    """Return the digest of each file written before, by its path in the folder; and the list."""
    if not is_there(listing):
        return {}
    try:
        text = read_at_most(listing, MOST_BYTES).decode()
    except (OSError, UnicodeDecodeError) as error:
        raise _unread(listing) from error
    found = [_LINE.fullmatch(line) for line in text.splitlines()]
    made = {line[2]: line[1] for line in found if line is not None and _is_inside(line[2])}
    if len(made) < len(found):
        raise _unread(listing)
    return {**made, LIST: ""}


def _unread(listing: Path) -> WholeballError:
    return WholeballError(
        f"{listing} is not as Wholeball wrote it, so nobody can tell which files are its own.",
        fix="Nothing was written. Name another folder, or take this one away.",
        code="path",
    )


def _is_inside(name: str) -> bool:
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts


def _digest_of(path: Path) -> str | None:
    if not path.is_file() or path.is_symlink():
        return None
    with path.open("rb") as file:
        return sha256(file.read()).hexdigest()


def _listed(pages: Mapping[str, bytes]) -> bytes:
    lines = (f"{sha256(data).hexdigest()}  {name}\n" for name, data in sorted(pages.items()))
    return "".join(lines).encode()
