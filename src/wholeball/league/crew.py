"""Holds who officiates: officials, and the crew of each game."""

from dataclasses import dataclass
from datetime import date

from wholeball.kernel.identity import GameId, PersonId


@dataclass(frozen=True, slots=True, kw_only=True)
class Official:
    """A student official by the name that sheets show; `person` where they play as well."""

    official: str
    person: PersonId | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OnCrew:
    """One official's role in one game, as the rulebook's `crew.roles` names it.

    `day` is set for the crew of a later night, on which a game that was stopped was resumed.
    """

    game: GameId
    role: str
    official: str
    day: date | None = None
