"""Finds the cautions that belong to a situation in which somebody can get hurt."""

from collections.abc import Mapping
from typing import Final

from wholeball.reports.safety import CAUTIONS, Caution

_ALWAYS: Final = Caution(
    title="Somebody may be hurt",
    says="Stop as soon as it is needed, protect whoever is down, call those whom the night sheet "
    "names, and write down what was seen. Nobody at the field judges how bad it is.",
    source="common practice, no source",
)
_BY_TITLE: Final = {caution.title: caution for caution in (_ALWAYS, *CAUTIONS)}
_HURT: Final = ("Somebody may be hurt", "An emergency")
_WHERE: Final[tuple[tuple[str, str, tuple[str, ...]], ...]] = (
    ("reason", "head", (*_HURT, "Head injury")),
    ("reason", "blood", (_ALWAYS.title, "Bleeding")),
    ("reason", "injury", (*_HURT, "Head injury")),
    ("reason", "weather", ("Thunder or a flash",)),
    ("reason", "frame", ("Goals",)),
    ("degree", "excessive", _HURT),
    ("degree", "reckless", (_ALWAYS.title,)),
    ("foul", "violent", _HURT),
    ("foul", "bite_spit", _HURT),
    ("foul", "risky", (_ALWAYS.title,)),
    ("foul", "at_feet", (_ALWAYS.title,)),
    ("foul", "slide", (_ALWAYS.title,)),
)


def cautions(facts: Mapping[str, str]) -> tuple[Caution, ...]:
    """Return what to be careful about in a situation, each caution once."""
    titles = [
        title for fact, value, found in _WHERE if facts.get(fact) == value for title in found
    ]
    return tuple(_BY_TITLE[title] for title in dict.fromkeys(titles))
