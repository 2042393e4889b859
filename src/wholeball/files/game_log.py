"""Keeps the log of a game in a season folder: lines are added at its end and never changed."""

import fcntl
import os
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from wholeball.files.bounded import is_there, read_at_most
from wholeball.game.codec import read_log, unread
from wholeball.game.envelope import Entry, Finding, Report, stored_line, verify
from wholeball.kernel.faults import WholeballError

FOLDER: Final = "games"
MOST_BYTES: Final = 64_000_000
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,79}")


@dataclass(frozen=True, slots=True, kw_only=True)
class GameLog:
    """A game's entries as they were stored, what stands of them, and what was found."""

    entries: tuple[Entry, ...]
    report: Report
    newer: tuple[Finding, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All that was found; the game can be played through in spite of it."""
        return self.report.findings + self.newer


def log_name(game: str) -> str:
    """Return where in a season folder the log of a game is.

    Raises:
        WholeballError: no file can be called so everywhere.
    """
    if not _NAME.fullmatch(game):
        raise WholeballError(
            f"The game {game!r} cannot name a file.",
            fix="Name games by letters of A to Z, digits, spaces, and the signs . _ -",
            code="path",
        )
    return f"{FOLDER}/{game}.jsonl"


def has_log(folder: Path, game: str) -> bool:
    """Tell whether a season folder has a log of a game."""
    return _NAME.fullmatch(game) is not None and is_there(folder / log_name(game))


def read_game(folder: Path, game: str) -> GameLog:
    """Return the log of a game; empty where nothing was recorded yet.

    Raises:
        InputFaults: every line that says nothing; nothing was read.
        WholeballError: the file cannot be read, or is too big.
    """
    name = log_name(game)
    entries = read_log(_bytes(folder / name), game=game, file=name)
    report = verify(entries)
    return GameLog(entries=entries, report=report, newer=unread(report.standing))


def append(folder: Path, game: str, entries: Sequence[Entry]) -> None:
    """Add entries at the end of a game's log, all or none, and wait for the disk.

    The lines that stand are copied as they are and the new ones put behind them; the copy
    takes the log's place at once. Writers wait for one another.

    Raises:
        WholeballError: the log cannot be read, would be too big, or the disk refuses; it is as
            it was.
        ValueError: an entry is of another game.
    """
    path = folder / log_name(game)
    if any(entry.said.game != game for entry in entries):
        message = f"only entries of {game} belong into its log"
        raise ValueError(message)
    added = b"".join(stored_line(entry) + b"\n" for entry in entries)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with _alone_in(path.parent) as parent:
            data = _whole_lines(path) + added
            if len(data) > MOST_BYTES:
                raise _too_big(path)
            _replace(path, data)
            os.fsync(parent)
    except OSError as error:
        raise WholeballError(
            f"{path} cannot be written: {error.strerror}.",
            fix="Nothing was changed. Check the disk and the folder's permissions.",
            code="storage",
        ) from error


@contextmanager
def _alone_in(folder: Path) -> Iterator[int]:
    """Hold a folder against other writers, and give its descriptor."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX)
        yield descriptor
    finally:
        os.close(descriptor)


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


def _bytes(path: Path) -> bytes:
    if not is_there(path):
        return b""
    try:
        data = read_at_most(path, MOST_BYTES)
    except OSError as error:
        raise WholeballError(
            f"{path} cannot be read: {error.strerror}.",
            fix="Nothing was changed. Check the disk and the folder's permissions.",
            code="storage",
        ) from error
    if len(data) > MOST_BYTES:
        raise _too_big(path)
    return data


def _whole_lines(path: Path) -> bytes:
    data = _bytes(path)
    if data and not data.endswith(b"\n"):
        raise WholeballError(
            f"The last line of {path} has no end: it was cut while it was copied.",
            fix="Nothing was changed. Copy the file again.",
            code="torn",
        )
    return data


def _too_big(path: Path) -> WholeballError:
    return WholeballError(
        f"{path} would have more than {MOST_BYTES:,} bytes.",
        fix="A game's log is far smaller; ask who wrote so much.",
        code="limits",
    )
