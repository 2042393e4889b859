"""Compares a house rulebook with the edition of the Laws it stands on, value by value."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from wholeball.kernel.length import Length, System, system_of
from wholeball.rulebook.book import Path, Rulebook, values
from wholeball.rulebook.editions import edition
from wholeball.rulebook.value import Article

Standing: TypeAlias = Literal["law", "differs", "house"]
"""As in the Laws; different from them; or a matter they leave to the competition."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One value of an article that the house sets otherwise than the Laws."""

    path: Path
    key: str
    here: object
    laws: object


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """Where one article stands to the Laws, and by which values it differs from them."""

    path: Path
    standing: Standing
    differences: tuple[Difference, ...]


def compared(book: Rulebook) -> dict[Path, Compared]:
    """Return how each article stands to the Laws, in the order of the booklet.

    What a house repeats word for word is Law, whatever kind its table says.
    """
    laws = dict(edition(book.head.base).articles())
    system = system_of(book.field.unit)
    return {
        path: _compared(path, article, laws[path], system) for path, article in book.articles()
    }


def _compared(path: Path, here: Article, laws: Article, system: System) -> Compared:
    other = values(laws)
    found = tuple(
        Difference(path=path, key=key, here=value, laws=other[key])
        for key, value in values(here).items()
        if not _same(value, other[key], system)
    )
    if laws.kind == "administrative":
        return Compared(path=path, standing="house", differences=found)
    return Compared(path=path, standing="differs" if found else "law", differences=found)


def _same(here: object, laws: object, system: System) -> bool:
    """Tell whether two values are one; a length is held to the Laws' figure in its own system."""
    if isinstance(here, Length) and isinstance(laws, Length):
        measure = here.measured(system)
        return measure.tenths == laws.measured(system_of(measure.unit)).tenths
    return here == laws
