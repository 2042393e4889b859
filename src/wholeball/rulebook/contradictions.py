"""Finds every two values of a rulebook that cannot both be meant."""

from types import ModuleType
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks import cards, people, place, season, time
from wholeball.rulebook.checks.check import Check, Contradiction

__all__ = ["CHECKS", "Check", "Contradiction", "contradictions"]


def _of(module: ModuleType) -> tuple[Check, ...]:
    return tuple(value for value in vars(module).values() if isinstance(value, Check))


CHECKS: Final[tuple[Check, ...]] = tuple(
    check for module in (place, people, time, cards, season) for check in _of(module)
)
"""Every check; one whose articles are not all valid must not be asked."""


def contradictions(book: Rulebook) -> tuple[Contradiction, ...]:
    """Return all that is contradictory or doubtful, without the doubts that are confirmed."""
    return tuple(clash for check in CHECKS for clash in check.find(book))
