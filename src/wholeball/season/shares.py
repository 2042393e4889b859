"""Holds what simulated seasons came to: how often something came about, and how sure that is."""

from dataclasses import dataclass
from math import sqrt
from typing import Final, Literal, TypeAlias

from wholeball.kernel.identity import PoolId, TeamId

SEASONS: Final = 10_000
Proven: TypeAlias = Literal["always", "never"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """In how many of the simulated seasons something came about; or what is proven of it."""

    hits: int
    seasons: int
    proven: Proven | None = None

    @property
    def chance(self) -> float:
        """The share of seasons, 0 to 1."""
        return self.hits / self.seasons

    @property
    def error(self) -> float:
        """The standard error that simulating so many seasons leaves; strengths have their own."""
        return sqrt(self.chance * (1 - self.chance) / self.seasons)

    @property
    def bound(self) -> float:
        """What a chance that never came about is below, 19 times of 20 (the rule of three)."""
        return 3 / self.seasons


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamOdds:
    """One team's chances. `places` counts the seasons in which it took each place of its pool.

    `wins` is None where the bracket is not simulated.
    """

    team: TeamId
    pool: PoolId
    goes_on: Share
    wins: Share | None
    places: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Odds:
    """What came of the simulated seasons, and what to know about them.

    The same `seed` gives the same answer. `fed_by` games were played and fed the strengths.
    In `by_chance` seasons a place of the play-offs hung on lots, or on one of the criteria `not_simulated`, and
    chance stood in for it.
    """

    seed: int
    seasons: int
    left: int
    fed_by: int
    by_chance: int
    not_simulated: tuple[str, ...]
    teams: tuple[TeamOdds, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NoOdds:
    """Why there are no odds."""

    why: Literal["no_play_offs", "no_teams", "games_dropped_later", "games_dropped_by_lots"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """How many seasons are simulated, and the seed that makes them the same again."""

    seed: int
    seasons: int = SEASONS
