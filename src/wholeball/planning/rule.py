"""States one rule of a timetable as a record that people can read and change."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

from wholeball.kernel.identity import TeamId

Strength: TypeAlias = Literal["must", "wish"]
Param: TypeAlias = int | str | bool | tuple[str, ...]
Games: TypeAlias = Literal["all", "league", "play_off"]
"""Which games a rule looks at: those of pools, those of the bracket, or both."""

SCALE: Final[Mapping[int, str]] = MappingProxyType(
    {
        1: "tiny",
        3: "a nuisance",
        5: "unfair",
        10: "a complaint",
        30: "an appeal",
        100: "no game",
    }
)
"""What a wish that is not met costs, in words; any whole number between is allowed."""


def cost_word(cost: int) -> str:
    """Say what a cost means: "a nuisance" of 3, "more than a nuisance" of 4."""
    below = max(one for one in SCALE if one <= cost)
    return SCALE[below] if below == cost else f"more than {SCALE[below]}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule: what kind it is, whom it concerns, and whether it must hold or what it costs.

    `teams` names whom it concerns; empty means everybody. `params` are those of its kind, read
    and checked by the registry. `why` is shown beside it.
    """

    rule: str
    kind: str
    strength: Strength
    cost: int = 0
    teams: tuple[TeamId, ...] = ()
    games: Games = "all"
    params: Mapping[str, Param] = field(default_factory=dict)
    why: str = ""

    def __post_init__(self) -> None:
        """Refuse a wish that costs nothing and a must that has a price."""
        if (self.strength == "wish") != (self.cost > 0):
            raise ValueError(f"rule {self.rule}: a wish has a cost above 0, a must has none")

    def looks_at(self, *, is_play_off: bool) -> bool:
        """Tell whether it looks at games of the play-offs, or at those of the league."""
        return self.games == "all" or is_play_off == (self.games == "play_off")
