"""States what was ruled about a game after it was played."""

from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, Side

Ruled: TypeAlias = Literal["awarded", "forfeit", "annulled", "stands"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruling:
    """One ruling, by its number in the season; the last about a game holds.

    `goals` are home and away of an awarded game; `by` is who forfeits by it. A game that
    `stands` counts as it was played, whatever an earlier ruling said.
    """

    number: int
    game: GameId
    day: date | None = None
    ruled: Ruled
    goals: tuple[int, int] | None = None
    by: Side | None = None
    ref: str = ""
    why: str = ""

    def __post_init__(self) -> None:
        """Refuse what no ruling can be."""
        if (self.goals is not None) != (self.ruled == "awarded"):
            raise ValueError(f"ruling {self.number}: {self.ruled} with goals {self.goals}")
        if (self.by is not None) != (self.ruled == "forfeit"):
            raise ValueError(f"ruling {self.number}: {self.ruled} by {self.by}")
