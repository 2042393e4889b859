"""States why a person may not play: one value a reason, with the article that says so."""

from dataclasses import dataclass
from datetime import date
from typing import Final, Literal, TypeAlias

from wholeball.kernel.identity import GameId, TeamId

Code: TypeAlias = Literal[
    "not_on_roster",
    "not_yet_on_roster",
    "suspended",
    "other_team",
    "club_players",
    "added_late",
    "added_too_near",
    "waiver_missing",
    "waiver_expired",
    "identification_forgotten",
    "identification_used_up",
    "not_cleared",
    "blocked_that_day",
    "too_few_games",
    "games_not_recorded",
    "fee_open",
    "refused",
]
_TO_ALL: Final[frozenset[Code]] = frozenset(
    (
        "not_on_roster",
        "not_yet_on_roster",
        "other_team",
        "added_late",
        "added_too_near",
        "identification_forgotten",
        "identification_used_up",
        "too_few_games",
        "games_not_recorded",
    )
)
"""What a captain may read; of all else a captain reads to see the coordinator."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One reason; `article` is a path of the rulebook, or what a ruling cites.

    One that does not `block` is for a person to look at. `teams` are those that bind the person,
    `games` those that would have to be played first, `day` the day a thing ended or began;
    `count` is how many there are and `most` how many there may be, or must be at least. One who
    `waits` also waits for a meeting.
    """

    code: Code
    article: str
    blocks: bool = True
    teams: tuple[TeamId, ...] = ()
    games: tuple[GameId, ...] = ()
    day: date | None = None
    count: int | None = None
    most: int | None = None
    waits: bool = False

    @property
    def is_private(self) -> bool:
        """Tell whether captains read nothing of it but to see the coordinator."""
        return self.code not in _TO_ALL
