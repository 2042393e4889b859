"""Keeps the rulebooks of a season, so that each game keeps the one it started with."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from wholeball.kernel.identity import GameId
from wholeball.rulebook.book import Rulebook


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Rulebooks by their digests, the current one, and which game started with which."""

    books: Mapping[str, Rulebook]
    current: str
    started_with: Mapping[GameId, str] = field(default_factory=dict)

    def start(self, game: GameId) -> "Shelf":
        """Return the shelf with a game bound to the current rulebook, once and for all."""
        if game in self.started_with:
            return self
        return replace(self, started_with={**self.started_with, game: self.current})

    def of(self, game: GameId) -> Rulebook:
        """Return the rulebook a game started with, or the current one if it has not started."""
        return self.books[self.started_with.get(game, self.current)]

    def change(self, book: Rulebook) -> "Change":
        """Return the shelf with `book` as the current one, and which games keep another."""
        changed = replace(self, books={**self.books, book.digest: book}, current=book.digest)
        kept = (game for game, with_ in self.started_with.items() if with_ != book.digest)
        return Change(shelf=changed, keep=tuple(sorted(kept)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What follows when a season gets another rulebook: the games in `keep` are not touched."""

    shelf: Shelf
    keep: tuple[GameId, ...]

    @property
    def code(self) -> str:
        """The stable code of the outcome: pinned where games keep an earlier rulebook."""
        return "pinned" if self.keep else "ok"


def shelf(book: Rulebook) -> Shelf:
    """Return the shelf of a season that starts with one rulebook."""
    return Shelf(books={book.digest: book}, current=book.digest)
