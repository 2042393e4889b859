"""Is one contradiction in a rulebook, and one check that looks for some."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Literal, TypeAlias

from wholeball.kernel import refusals
from wholeball.kernel.faults import Level
from wholeball.kernel.length import system_of
from wholeball.kernel.units import TENTHS_IN
from wholeball.rulebook.book import Path, Rulebook
from wholeball.rulebook.editions import NEWEST, edition, edition_keys
from wholeball.rulebook.keys import article_of, loc_of
from wholeball.rulebook.value import Distance

Code: TypeAlias = Literal["contradiction", "unreachable", "duplicate", "suspicious"]
Key: TypeAlias = str
"""Where a value stands, items counted from 0: "mercy.ladder.1"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """Values that cannot all be meant; the first key is the one most likely to be wrong.

    `suspicious` may be meant after all, and is silent where one of its articles is confirmed.
    """

    code: Code
    keys: tuple[Key, ...]
    says: str
    cure: str

    @property
    def level(self) -> Level:
        """A doubt where the values may be meant; a fault where they cannot."""
        return "doubt" if self.code == "suspicious" else "fault"

    @property
    def articles(self) -> tuple[Path, ...]:
        """The articles that hold the keys, each once, in the order of the keys."""
        return tuple(dict.fromkeys(_article(key) for key in self.keys))


Look: TypeAlias = Callable[[Rulebook], Iterator[Contradiction]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One question to a rulebook, and the articles whose values it reads."""

    paths: tuple[Path, ...]
    look: Look

    def find(self, book: Rulebook) -> tuple[Contradiction, ...]:
        """Return what the question finds, without the doubts that the rulebook confirms."""
        return tuple(clash for clash in self.look(book) if not _confirmed(clash, book))


def reads(*paths: Path) -> Callable[[Look], Check]:
    """Make a check of a function that reads these articles."""
    return lambda look: Check(paths=paths, look=look)


def value_at(book: Rulebook, key: Key) -> Any:  # a rulebook's values have no narrower type
    """Return the value that stands at a key."""
    value: Any = book
    for name in key.split("."):
        value = value[int(name)] if name.isdigit() else getattr(value, name)
    return value


def stated(book: Rulebook, key: Key) -> str:
    """Return what a key states: "[sides] on_field is 8"."""
    return f"{named(key)} is {refusals.toml_text(value_at(book, key))}"


def named(key: Key) -> str:
    """Return a key as a fault names it: "[mercy] ladder item 2"."""
    return refusals.named(loc_of(key), _article(key))


def both(
    book: Rulebook, key: Key, other: Key, *, cure: str, code: Code = "contradiction"
) -> Contradiction:
    """Return the contradiction of two values that exclude each other, or hardly go together."""
    return Contradiction(
        code=code,
        keys=(key, other),
        says=f"{stated(book, key)}, but {stated(book, other)}.",
        cure=cure,
    )


def above(book: Rulebook, key: Key, other: Key) -> Iterator[Contradiction]:
    """Find whether a number is more than another it must not pass; "no_limit" never is."""
    value, most = value_at(book, key), value_at(book, other)
    if isinstance(value, int) and isinstance(most, int) and value > most:
        yield _too_much(book, key, other, most)


def longer(book: Rulebook, key: Key, other: Key) -> Iterator[Contradiction]:
    """Find whether a length is more than another it must not pass, as the field is measured."""
    if measured(book, value_at(book, key)) > measured(book, value_at(book, other)):
        yield _too_much(book, key, other, value_at(book, other))


def measured(book: Rulebook, distance: Distance) -> Decimal:
    """Return a length in tenths of a millimetre, from the measure the field is laid out in."""
    measure = distance.measured(system_of(book.field.unit))
    return measure.amount * TENTHS_IN[measure.unit]


def laws_of(book: Rulebook) -> Rulebook:
    """Return the edition that a rulebook stands on; the newest where it names none that is known."""
    base = book.head.base
    return edition(base if base in edition_keys() else NEWEST)


def _too_much(book: Rulebook, key: Key, other: Key, most: object) -> Contradiction:
    return Contradiction(
        code="contradiction",
        keys=(key, other),
        says=f"{stated(book, key)}, more than {named(other)}, which is {most}.",
        cure=f"Give {_short(key)} at most {most}, or raise {_short(other)}.",
    )


def _short(key: Key) -> str:
    return key.removeprefix(f"{_article(key)}.")


def _article(key: Key) -> Path:
    article = article_of(loc_of(key))
    if article is None:
        raise ValueError(f"{key} stands in no article")
    return article


def _confirmed(clash: Contradiction, book: Rulebook) -> bool:
    return clash.level == "doubt" and any(book.article(path).confirm for path in clash.articles)
