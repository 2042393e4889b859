"""Compares a house rulebook with the edition of the Laws it stands on, value by value."""

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from wholeball.kernel.length import Length, System, system_of
from wholeball.rulebook.book import Path, Rulebook, idle_keys, values
from wholeball.rulebook.editions import edition
from wholeball.rulebook.tables.place import Limits
from wholeball.rulebook.value import Article

Standing: TypeAlias = Literal["law", "differs", "house"]
"""As in the Laws; different from them; or a matter they leave to the competition."""

_SETS: Final = frozenset(
    {
        "equipment.required",
        "equipment.forbidden",
        "game.stoppages.clock_stops_for",
        "eligibility.who",
        "roster.club_players.counted",
        "protests.about",
    }
)
"""Lists whose order says nothing."""
_SIZES: Final = frozenset({"field.length", "field.width"})


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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """The system that a house measures its field in, and the Laws' limits of a field."""

    system: System
    limits: Limits

    def is_law(self, key: str, here: object, laws: object) -> bool:
        """Tell whether a value says what the Laws say, or what they leave free."""
        if key in _SETS and isinstance(here, tuple) and isinstance(laws, tuple):
            return set(here) == set(laws)
        if key in _SIZES and isinstance(here, Length):
            return self._is_within(here, key.removeprefix("field."))
        return key == "field.unit" or _same(here, laws, self.system)

    def _is_within(self, here: Length, side: str) -> bool:
        measure = here.measured(self.system)
        least, most = (
            getattr(self.limits, f"{side}_{end}").measured(system_of(measure.unit)).tenths
            for end in ("least", "most")
        )
        return bool(least <= measure.tenths <= most)


def compared(book: Rulebook) -> dict[Path, Compared]:
    """Return how each article stands to the Laws, in the order of the booklet.

    What a house repeats word for word is Law, whatever kind its table says. So is a size of
    the field within the limits of the Laws; the order of a list that is a set, and the unit
    in which a house likes to measure, say nothing, nor does a value that another of its table
    makes idle.

    Raises:
        WholeballError: the rulebook names a base that is no edition.
    """
    base = edition(book.head.base)
    laws = dict(base.articles())
    laid = _Laid(system=system_of(book.field.unit), limits=base.field.limits)
    idle = idle_keys(book)
    return {
        path: _compared(path, article, laws[path], laid, idle)
        for path, article in book.articles()
    }


def _compared(
    path: Path, here: Article, laws: Article, laid: _Laid, idle: frozenset[str]
) -> Compared:
    other = values(laws)
    found = tuple(
        Difference(path=path, key=key, here=value, laws=other[key])
        for key, value in values(here).items()
        if f"{path}.{key}" not in idle and not laid.is_law(f"{path}.{key}", value, other[key])
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
