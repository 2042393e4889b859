"""States how one game ended, as the standings read it."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, Side, TeamId

How: TypeAlias = Literal[
    "played", "forfeit", "default", "double_forfeit", "awarded", "annulled"
]
MOST_GOALS = 999_999
"""The most goals a side can have; it keeps every total exact in 64 bits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardCounts:
    """Players of one team by what they were shown in a game; each player counts once."""

    yellow: int = 0
    second_yellow: int = 0
    straight_red: int = 0
    yellow_and_straight_red: int = 0

    def __post_init__(self) -> None:
        """Refuse a count below nought."""
        if min(self.in_order) < 0:
            raise ValueError(f"counts of players are 0 or more, got {self}")

    @property
    def in_order(self) -> tuple[int, int, int, int]:
        """Yellow, second yellow, straight red, yellow and straight red."""
        return (
            self.yellow,
            self.second_yellow,
            self.straight_red,
            self.yellow_and_straight_red,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """One game's official result.

    `home_goals` and `away_goals` are what stands: the score played, or the score awarded by a
    ruling. They are not read for a forfeit, a default or a double forfeit, which the rulebook
    scores. `by` is who forfeited or defaulted. `played_score` is home and away as played, where
    something else stands; `ruling` is the number of the last ruling about the game, and `before`
    how it counted before any, None where it did not. `kicks` are the
    goals of kicks from the mark that decided a level game: they part teams in a play-off match
    and count nowhere else. `home_rating` is the rating that the home team received, the exact mean
    where it received several: then `home_ratings` are these, one by one. A game on neutral ground has no away goals and no away win. Cards
    are None where not recorded; `red_staff` are the sides of which a team official was sent off.
    """

    game: GameId
    round: int
    home: TeamId
    away: TeamId
    home_goals: int = 0
    away_goals: int = 0
    how: How = "played"
    by: Side | None = None
    played_score: tuple[int, int] | None = None
    ruling: int | None = None
    before: How | None = None
    kicks: tuple[int, int] | None = None
    home_cards: CardCounts | None = None
    away_cards: CardCounts | None = None
    home_rating: Decimal | Fraction | None = None
    away_rating: Decimal | Fraction | None = None
    home_ratings: tuple[Fraction, ...] = ()
    away_ratings: tuple[Fraction, ...] = ()
    neutral: bool = False
    red_staff: frozenset[Side] = frozenset()

    def __post_init__(self) -> None:
        """Refuse what no game can be."""
        if self.round < 1:
            raise ValueError(f"{self.game}: rounds count from 1, got {self.round}")
        if self.home == self.away:
            raise ValueError(f"{self.game}: {self.home} cannot play itself")
        goals = (self.home_goals, self.away_goals, *(self.played_score or ()))
        if not 0 <= min(goals) <= max(goals) <= MOST_GOALS:
            raise ValueError(f"{self.game}: goals are 0 to {MOST_GOALS}, got {goals}")
        if (self.by is not None) != (self.how in ("forfeit", "default")):
            raise ValueError(f"{self.game}: {self.how} with by={self.by!r}")
        if self.kicks is not None and min(self.kicks) < 0:
            raise ValueError(f"{self.game}: kicks are 0 or more, got {self.kicks}")
