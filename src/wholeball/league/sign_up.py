"""Holds what comes in at sign-up: teams that want a block, and players without a team."""

from dataclasses import dataclass
from datetime import datetime

from wholeball.kernel.identity import BlockId, PersonId, TeamId


@dataclass(frozen=True, slots=True, kw_only=True)
class SignUp:
    """A team that asks for a place in a block; `at` is when it came in, in local time.

    `players` is how many it has so far.
    """

    team: TeamId
    block: BlockId
    at: datetime
    captain: str = ""
    players: int = 0
    colours: str = ""
    second_colours: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alone:
    """A player who signed up for a block without a team."""

    person: PersonId
    name: str
    block: BlockId
    at: datetime
