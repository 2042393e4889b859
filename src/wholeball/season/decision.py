"""States what a person decided about a player after a red or at a meeting."""

from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, PersonId

Decided: TypeAlias = Literal["games", "until", "meeting_held", "lifted"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """One decision about a person, by its number; later numbers are later decisions.

    `games` suspends for so many games and `until` to a day, that day included; a meeting held
    ends a wait for it, and lifted ends what was decided before. `game` is what it is about, None
    where it is about no one game. `why` is private: only staff may see it.
    """

    number: int
    day: date
    person: PersonId
    game: GameId | None = None
    ruled: Decided
    games: int | None = None
    until: date | None = None
    ref: str = ""
    why: str = ""

    def __post_init__(self) -> None:
        """Refuse what no decision can be."""
        if (self.games is not None) != (self.ruled == "games"):
            raise ValueError(f"decision {self.number}: {self.ruled} with games={self.games}")
        if (self.until is not None) != (self.ruled == "until"):
            raise ValueError(f"decision {self.number}: {self.ruled} with until={self.until}")
