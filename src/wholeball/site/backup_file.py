"""Is the form of a backup: a line that names it, what it holds, the data, and a checksum of all.

The last 65 bytes are the SHA-256 of all before them, so that no byte can change unnoticed.
"""

import hashlib
import json
import os
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import IO, Final, Literal

from wholeball.kernel.faults import WholeballError

NAME: Final = b"wholeball backup 1\n"
BLOCK: Final = 1 << 20
SUM_BYTES: Final = 65
MOST_HEAD: Final = 1 << 20

Kind = Literal["sqlite", "rows"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """What a backup holds: by which program, when, and which migrations had run.

    `kind` is a whole SQLite file, or rows as lines of JSON. `results` has a digest of what each
    season's facts come to, by organisation and season.
    """

    program: str
    made: str
    kind: Kind
    schema: dict[str, list[str]]
    results: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A backup that was written: its bytes, and the checksum at its end."""

    size: int
    digest: str


def write_file(path: Path, head: Head, data: IO[bytes]) -> Kept:
    """Write a backup beside `path`, and name it so once it is whole on the disk."""
    sums = hashlib.sha256()
    part = path.with_name(f"{path.name}.part")
    try:
        with open(part, "xb", opener=_ours_alone) as file:
            for block in _blocks_of(head, data):
                sums.update(block)
                file.write(block)
            file.write(f"{sums.hexdigest()}\n".encode())
            file.flush()
            os.fsync(file.fileno())
            size = file.tell()
        part.rename(path)
    finally:
        part.unlink(missing_ok=True)
    return Kept(size=size, digest=sums.hexdigest())


def read_head(path: Path) -> tuple[Head, int]:
    """Return what a backup holds and where its data begin, once every byte was checked.

    Raises:
        WholeballError: a byte is not as it was written, or a newer program wrote it.
    """
    _check_sum(path)
    with path.open("rb") as file:
        if file.readline(len(NAME)) != NAME:
            raise WholeballError(
                f"{path}: it was written by another version of Wholeball.",
                fix="Restore it with that version, or a newer one.",
                code="version",
            )
        head = Head(**json.loads(file.readline(MOST_HEAD)))
        return head, file.tell()


def data_of(path: Path, start: int) -> Iterator[bytes]:
    """Return the data, block by block."""
    left = path.stat().st_size - start - SUM_BYTES
    with path.open("rb") as file:
        file.seek(start)
        while left > 0:
            block = file.read(min(BLOCK, left))
            left -= len(block)
            yield block


def _ours_alone(name: str, flags: int) -> int:
    """Open a file that only this account can read: a backup holds what is private."""
    return os.open(name, flags, 0o600)


def _blocks_of(head: Head, data: IO[bytes]) -> Iterator[bytes]:
    yield NAME
    yield json.dumps(asdict(head), sort_keys=True).encode() + b"\n"
    while block := data.read(BLOCK):
        yield block


def _check_sum(path: Path) -> None:
    """Compare the checksum at the end with that of all bytes before it."""
    sums = hashlib.sha256()
    for block in data_of(path, 0):
        sums.update(block)
    with path.open("rb") as file:
        file.seek(-min(SUM_BYTES, path.stat().st_size), 2)
        told = file.read()
    if told != f"{sums.hexdigest()}\n".encode():
        raise WholeballError(
            f"{path}: its bytes are not those that were written; the checksum differs.",
            fix="Nothing was restored. Take another copy of this backup, or an older one.",
            code="checksum",
        )
