"""Holds a player as a team's roster lists them: a name, and a shirt number if there is one."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final, TypeAlias

from wholeball.kernel.identity import PersonId, TeamId

_BETWEEN: Final = ": "


@dataclass(frozen=True, slots=True, kw_only=True)
class Player:
    """One line of a roster; the name is shown as it is written.

    `person` is None where nobody gave the person a code: then only this line is known of them.
    `id_end` holds the last three digits of the student id, for the gate; `added` is the day on
    which the player came onto the roster.
    """

    name: str
    number: int | None = None
    is_captain: bool = False
    person: PersonId | None = None
    id_end: str = ""
    added: date | None = None


def person_of(team: TeamId, player: Player) -> PersonId:
    """Return who a player is; without a code, somebody known on this team's roster only."""
    return player.person or PersonId(f"{team}{_BETWEEN}{player.name}")


def person_called(person: str, team: str, name: str) -> str:
    """Return who is known on a team's roster only once the team has another name.

    Somebody with a code, or of another team, stays who they are.
    """
    mine, rest = person[: len(team)], person[len(team) :]
    is_of_team = mine.casefold() == team.casefold() and rest.startswith(_BETWEEN)
    return f"{name}{rest}" if is_of_team else person


Rosters: TypeAlias = Mapping[TeamId, tuple[Player, ...]]
"""The players of each team in the order of its list; a team without a list is absent."""
