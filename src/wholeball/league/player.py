"""Holds a player as a team's roster lists them: a name, and a shirt number if there is one."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from wholeball.kernel.identity import TeamId


@dataclass(frozen=True, slots=True, kw_only=True)
class Player:
    """One line of a roster; the name is shown as it is written, and nothing else is known."""

    name: str
    number: int | None = None
    is_captain: bool = False


Rosters: TypeAlias = Mapping[TeamId, tuple[Player, ...]]
"""The players of each team in the order of its list; a team without a list is absent."""
