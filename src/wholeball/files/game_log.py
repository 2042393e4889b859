"""Keeps the log of a game in a season's record: lines are added at its end, never changed."""

import re
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from typing import Final

from wholeball.files.refused_by_disk import told_of_disk
from wholeball.game.codec import read_log, unread
from wholeball.game.envelope import Entry, Finding, Report, heads, stored_line, verify
from wholeball.kernel.faults import WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.league.texts import LastingTexts, Made

FOLDER: Final = "games"
MOST_BYTES: Final = 64_000_000
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,79}")


@dataclass(frozen=True, slots=True, kw_only=True)
class GameLog:
    """A game's entries as they were stored, what stands of them, and what was found.

    `made` is what was made of them last.
    """

    entries: tuple[Entry, ...]
    report: Report
    newer: tuple[Finding, ...]
    made: Made = field(default_factory=Made, compare=False, repr=False)

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


def has_log(record: LeagueRecord, game: str) -> bool:
    """Tell whether a record has a log of a game."""
    return _NAME.fullmatch(game) is not None and record.has(log_name(game))


def read_game(record: LeagueRecord, game: str) -> GameLog:
    """Return the log of a game; empty where nothing was recorded yet.

    Raises:
        InputFaults: every line that says nothing; nothing was read.
        WholeballError: the file cannot be read, or is too big.
    """
    name = log_name(game)
    data = _bytes(record, name)
    if isinstance(record, LastingTexts):
        return record.made.part(name, data, lambda: _log_of(data, game, name))
    return _log_of(data, game, name)


def _log_of(data: bytes, game: str, name: str) -> GameLog:
    entries = read_log(data, game=game, file=name)
    report = verify(entries)
    return GameLog(entries=entries, report=report, newer=unread(report.standing))


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldLog:
    """A game's log as it stands while nobody else may write it."""

    record: LeagueRecord
    game: str
    log: GameLog

    def append(self, entries: Sequence[Entry]) -> None:
        """Add entries at the end, all or none, and wait until they are kept.

        Raises:
            WholeballError: an entry follows an older one than its device's last, the log would
                be too big, or cannot be kept; it is as it was.
            ValueError: an entry is of another game.
        """
        _refuse_other_games(self.game, entries)
        _refuse_moved(self.log, self.game, entries)
        name = log_name(self.game)
        added = b"".join(stored_line(entry) + b"\n" for entry in entries)
        if len(_bytes(self.record, name)) + len(added) > MOST_BYTES:
            raise _too_big(self.record.called(name))
        self.record.append(name, added)


@contextmanager
def held(record: LeagueRecord, game: str) -> Iterator[HeldLog]:
    """Hold a game's log against other writers, from reading it until it is written.

    Writers wait for one another, in other processes and in other threads; whoever holds one
    log of a record must not hold another.

    Raises:
        InputFaults: every line that says nothing.
        WholeballError: the log cannot be read, or its last line has no end.
    """
    name = log_name(game)
    with ExitStack() as stack:
        with told_of_disk(record.called(name), "written"):
            stack.enter_context(record.held())
        _refuse_torn(record, name)
        yield HeldLog(record=record, game=game, log=read_game(record, game))


def append(record: LeagueRecord, game: str, entries: Sequence[Entry]) -> None:
    """Add entries that were sealed elsewhere at the end of a game's log, all or none.

    Raises:
        InputFaults: every line of the log that says nothing.
        WholeballError: as for `held` and `HeldLog.append`.
        ValueError: an entry is of another game.
    """
    _refuse_other_games(game, entries)
    with held(record, game) as log:
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


def _bytes(record: LeagueRecord, name: str) -> bytes:
    if not record.has(name):
        return b""
    with told_of_disk(record.called(name), "read"):
        data = record.read(name, MOST_BYTES)
    if len(data) > MOST_BYTES:
        raise _too_big(record.called(name))
    return data


def _refuse_torn(record: LeagueRecord, name: str) -> None:
    data = _bytes(record, name)
    if data and not data.endswith(b"\n"):
        raise WholeballError(
            f"The last line of {record.called(name)} has no end: "
            "it was cut while it was copied.",
            fix="Nothing was changed. Copy the file again.",
            code="torn",
        )


def _too_big(log: str) -> WholeballError:
    return WholeballError(
        f"{log} would have more than {MOST_BYTES:,} bytes.",
        fix="A game's log is far smaller; ask who wrote so much.",
        code="limits",
    )
