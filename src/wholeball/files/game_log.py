"""Keeps the log of a game in a season folder: lines are added at its end and never changed."""

import fcntl
import os
import re
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from wholeball.files.bounded import is_there, read_at_most
from wholeball.game.codec import read_log, unread
from wholeball.game.envelope import Entry, Finding, Report, heads, stored_line, verify
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


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldLog:
    """A game's log as it stands while nobody else may write it."""

    folder: Path
    game: str
    log: GameLog

    def append(self, entries: Sequence[Entry]) -> None:
        """Add entries at the end, all or none, and wait for the disk.

        The lines that stand are copied as they are and the new ones put behind them; the copy
        takes the log's place at once.

        Raises:
            WholeballError: an entry follows an older one than its device's last, the log would
                be too big, or the disk refuses; it is as it was.
            ValueError: an entry is of another game.
        """
        _refuse_other_games(self.game, entries)
        _refuse_moved(self.log, self.game, entries)
        path = self.folder / log_name(self.game)
        added = b"".join(stored_line(entry) + b"\n" for entry in entries)
        with _told_of_disk(path, "written"):
            path.parent.mkdir(exist_ok=True)
            data = _bytes(path) + added
            if len(data) > MOST_BYTES:
                raise _too_big(path)
            _replace(path, data)
            with _open(path.parent) as parent:
                os.fsync(parent)


@contextmanager
def held(folder: Path, game: str) -> Iterator[HeldLog]:
    """Hold a game's log against other writers, from reading it until it is written.

    Writers wait for one another, in other processes and in other threads; whoever holds one
    log of a folder must not hold another.

    Raises:
        InputFaults: every line that says nothing.
        WholeballError: the log cannot be read, or its last line has no end.
    """
    path = folder / log_name(game)
    with ExitStack() as stack:
        with _told_of_disk(path, "written"):
            descriptor = stack.enter_context(_open(folder))
            fcntl.flock(descriptor, fcntl.LOCK_EX)
        _refuse_torn(path)
        yield HeldLog(folder=folder, game=game, log=read_game(folder, game))


def append(folder: Path, game: str, entries: Sequence[Entry]) -> None:
    """Add entries that were sealed elsewhere at the end of a game's log, all or none.

    Raises:
        InputFaults: every line of the log that says nothing.
        WholeballError: as for `held` and `HeldLog.append`.
        ValueError: an entry is of another game.
    """
    _refuse_other_games(game, entries)
    with held(folder, game) as log:
        log.append(entries)


def _refuse_other_games(game: str, entries: Sequence[Entry]) -> None:
    if any(entry.said.game != game for entry in entries):
        message = f"only entries of {game} belong into its log"
        raise ValueError(message)


def _refuse_moved(log: GameLog, game: str, entries: Sequence[Entry]) -> None:
    """Refuse entries whose device has written since they were sealed: its chain would fork."""
    last = heads(log.entries)
    firsts = {entry.said.dev: entry for entry in reversed(entries)}
    for dev, first in firsts.items():
        number, head = last.get(dev, (0, ""))
        if first.said.prev != head:
            raise WholeballError(
                f"{log_name(game)} was written by somebody else meanwhile: entry {number} of "
                f"{dev} is there.",
                fix="Nothing was written. Enter it again.",
                code="moved",
            )


@contextmanager
def _open(folder: Path) -> Iterator[int]:
    """Give a folder's descriptor; what is locked by it is free again at the end."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        yield descriptor
    finally:
        os.close(descriptor)


@contextmanager
def _told_of_disk(path: Path, what: str) -> Iterator[None]:
    """Tell in words where the disk refuses."""
    try:
        yield
    except OSError as error:
        raise WholeballError(
            f"{path} cannot be {what}: {error.strerror}.",
            fix="Nothing was changed. Check the disk and the folder's permissions.",
            code="storage",
        ) from error


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
    with _told_of_disk(path, "read"):
        data = read_at_most(path, MOST_BYTES)
    if len(data) > MOST_BYTES:
        raise _too_big(path)
    return data


def _refuse_torn(path: Path) -> None:
    data = _bytes(path)
    if data and not data.endswith(b"\n"):
        raise WholeballError(
            f"The last line of {path} has no end: it was cut while it was copied.",
            fix="Nothing was changed. Copy the file again.",
            code="torn",
        )


def _too_big(path: Path) -> WholeballError:
    return WholeballError(
        f"{path} would have more than {MOST_BYTES:,} bytes.",
        fix="A game's log is far smaller; ask who wrote so much.",
        code="limits",
    )
