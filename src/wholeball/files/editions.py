"""Reads the editions of a season's rulebook that another took the place of."""

from collections.abc import Mapping
from functools import partial
from typing import Final, NamedTuple

from wholeball.files.game_log import GameLog
from wholeball.files.reading import Reading
from wholeball.game.rules import GameRules, game_rules
from wholeball.kernel.faults import Fault, Place
from wholeball.league.fixture import Stage
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import load

FOLDER: Final = "editions"
"""The folder with the editions that were replaced, each by its number."""
_SUFFIX: Final = ".toml"
Editions = Mapping[str, Rulebook]
"""Rulebooks by their digests."""


def edition_name(number: int) -> str:
    """Return the name under which an edition is kept."""
    return f"{FOLDER}/{number}{_SUFFIX}"


def read_editions(reading: Reading) -> Editions:
    """Return the editions that were replaced; their faults go to the reading."""
    try:
        names = reading.names(FOLDER)
    except OSError as error:
        says = f"the folder cannot be read: {error.strerror}."
        cure = "Check the disk and the folder's permissions."
        place = Place(file=f"{FOLDER}/")
        reading.faults.append(Fault(code="storage", place=place, says=says, cure=cure))
        return {}
    found = {}
    for name in (f"{FOLDER}/{one}" for one in names if one.endswith(_SUFFIX)):
        loaded = reading.file(name, partial(load, file=name))
        if loaded is not None:
            found[loaded.rulebook.digest] = loaded.rulebook
    return found


def book_of(log: GameLog | None, book: Rulebook, editions: Editions) -> Rulebook:
    """Return the rulebook that a game is played by: that of its first entry, where it is kept."""
    first = next(iter(log.report.standing), None) if log is not None else None
    return book if first is None else editions.get(first.said.rb, book)


class PlayedBy(NamedTuple):
    """The rules that a game is counted by, and the digest of their rulebook."""

    rules: GameRules
    digest: str


class Books:
    """The rulebook of a season with its earlier editions, each made ready once."""

    def __init__(self, book: Rulebook, editions: Editions) -> None:
        self._book = book
        self._editions = editions
        self._digest = book.digest
        self._digests = {id(one): digest for digest, one in editions.items()}
        self._rules: dict[tuple[str, Stage], GameRules] = {}

    def of(self, log: GameLog | None, stage: Stage) -> PlayedBy:
        """Return what a game of a stage is counted by."""
        book = book_of(log, self._book, self._editions)
        digest = self._digest if book is self._book else self._digests[id(book)]
        key = (digest, stage)
        if key not in self._rules:
            self._rules[key] = game_rules(book, stage)
        return PlayedBy(self._rules[key], digest)
