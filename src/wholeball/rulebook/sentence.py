"""Builds a plain sentence whose values can be told from its words."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from string import Formatter
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from wholeball.rulebook.book import Rulebook


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of a sentence; a value is what the rulebook sets, and is shown marked."""

    text: str
    is_value: bool


@dataclass(frozen=True, slots=True)
class Sentence:
    """One plain sentence, in parts."""

    parts: tuple[Part, ...]

    def __str__(self) -> str:
        return "".join(part.text for part in self.parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """How one article reads: its heading, and its sentences computed from the values."""

    title: str
    says: "Callable[[Rulebook], tuple[Sentence, ...]]"


Dictionary: TypeAlias = dict[str, Words]
"""Words by the path of their article."""


def say(template: str, **values: object) -> Sentence:
    """Return the sentence with each {name} replaced by its value, marked as one.

    Raises:
        KeyError: the template names a value that is not given.
    """
    parts = []
    for words, name in _parsed(template):
        if words:
            parts.append(Part(words, is_value=False))
        if name is not None:
            parts.append(Part(str(values[name]), is_value=True))
    return Sentence(tuple(parts))


@cache
def _parsed(template: str) -> tuple[tuple[str, str | None], ...]:
    return tuple((words, name) for words, name, _, _ in Formatter().parse(template))


def counted(amount: int, one: str, many: str | None = None) -> str:
    """Return an amount with its noun: "1 goal", "2 goals"."""
    return f"{amount:,} {one if amount == 1 else many or one + 's'}"


def listed(words: tuple[str, ...], *, last: str = "and") -> str:
    """Return words as a list in a sentence: "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"
