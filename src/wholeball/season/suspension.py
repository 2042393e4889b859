"""States suspensions: why, how many games, where they were served, and who is barred where."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal, NamedTuple, TypeAlias

from wholeball.kernel.identity import GameId, PersonId, Side, TeamId

Cause: TypeAlias = Literal["yellows", "red", "second_red", "ruling"]
"""A second red is a further red of the season, not one for two yellows."""


class Served(NamedTuple):
    """A game that served one game of a suspension."""

    game: GameId
    day: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspension:
    """One suspension as it stands on a day.

    `game` is the game it comes from, None where a ruling made it without one; `day` is from when
    on it holds. `league` is where it holds, None for everywhere. `article` is a path of the
    rulebook, or what the ruling cites. `until` is the last day of one that a ruling set by day;
    `waits` tells that the player also waits for a meeting; `lifted` is from when on it holds no
    more by a ruling. `rulings` are the numbers of the decisions that shaped it.
    """

    person: PersonId
    cause: Cause
    article: str
    game: GameId | None
    day: date
    league: str | None
    games: int
    served: tuple[Served, ...] = ()
    until: date | None = None
    waits: bool = False
    lifted: date | None = None
    rulings: tuple[int, ...] = ()

    @property
    def left(self) -> int:
        """Return how many games are still to be served."""
        return 0 if self.lifted else max(self.games - len(self.served), 0)

    def holds_on(self, day: date) -> bool:
        """Tell whether it is open on a day, by what was known on the day it was told for."""
        if self.lifted is not None:
            return False
        is_until = self.until is not None and day <= self.until
        return self.left > 0 or self.waits or is_until


@dataclass(frozen=True, slots=True, kw_only=True)
class Barred:
    """A person who may not play in a game to come.

    `unless` names the games before it without a result that would, as they are listed, serve
    what is left; it is empty where nothing can.
    """

    person: PersonId
    team: TeamId
    suspensions: tuple[Suspension, ...]
    unless: tuple[GameId, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Breach:
    """A person who appeared in a game while suspended; that game serves nothing."""

    person: PersonId
    game: GameId
    team: TeamId
    side: Side
    suspensions: tuple[Suspension, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Discipline:
    """All suspensions of a season as of a day.

    `barred` has the games that are to be played, or to be played on.
    """

    on: date
    suspensions: tuple[Suspension, ...] = ()
    barred: Mapping[GameId, tuple[Barred, ...]] = field(default_factory=dict)
    breaches: tuple[Breach, ...] = ()

    @property
    def open(self) -> tuple[Suspension, ...]:
        """The suspensions that still hold."""
        return tuple(one for one in self.suspensions if one.holds_on(self.on))

    def barred_from(self, game: GameId, person: PersonId) -> Barred | None:
        """Return why a person may not play in a game to come, or None."""
        found = (one for one in self.barred.get(game, ()) if one.person == person)
        return next(found, None)
