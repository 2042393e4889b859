"""Finds every two values of a rulebook that cannot both be meant."""

from collections.abc import Iterator
from types import ModuleType
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks import cards, people, place, season, time
from wholeball.rulebook.checks.check import Check, Contradiction, laws_of, named, stated
from wholeball.rulebook.differences import compared
from wholeball.rulebook.editions import edition_keys

__all__ = ["CHECKS", "Check", "Contradiction", "contradictions"]


def _of(module: ModuleType) -> tuple[Check, ...]:
    return tuple(value for value in vars(module).values() if isinstance(value, Check))


CHECKS: Final[tuple[Check, ...]] = tuple(
    check for module in (place, people, time, cards, season) for check in _of(module)
)
"""Every check; one whose articles are not all valid must not be asked."""


def contradictions(book: Rulebook) -> tuple[Contradiction, ...]:
    """Return all that is contradictory or doubtful, without the doubts that are confirmed."""
    return (
        *(clash for check in CHECKS for clash in check.find(book)),
        *_called_law_still(book),
        *_cited_twice(book),
    )


def _called_law_still(book: Rulebook) -> Iterator[Contradiction]:
    """Find articles that say they are Law, though a value in them is not the Laws'."""
    if book.head.base not in edition_keys():
        return
    articles = dict(book.articles())
    for path, one in compared(book).items():
        if one.standing == "differs" and articles[path].kind == "law":
            changed = f"{path}.{one.differences[0].key}"
            yield Contradiction(
                code="contradiction",
                keys=(f"{path}.kind", changed),
                says=f"{stated(book, f'{path}.kind')}, but {stated(book, changed)}, "
                "which is not in the Laws.",
                cure='Write kind = "local", or "permitted" where the Laws allow the change.',
            )


def _cited_twice(book: Rulebook) -> Iterator[Contradiction]:
    """Find references that the house gives to several articles; those of the Laws may repeat."""
    laws = {path: article.ref for path, article in laws_of(book).articles()}
    own = [(path, one.ref) for path, one in book.articles() if one.ref not in ("", laws[path])]
    also = [(f"also.{index}", one.ref) for index, one in enumerate(book.also)]
    first: dict[str, str] = {}
    for path, ref in (*own, *also):
        if ref in first:
            yield Contradiction(
                code="duplicate",
                keys=(f"{path}.ref", f"{first[ref]}.ref"),
                says=f"{stated(book, f'{path}.ref')}, as is {named(f'{first[ref]}.ref')}.",
                cure="Give each article a reference of its own.",
            )
        first.setdefault(ref, path)
