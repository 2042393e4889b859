"""Holds how a league is sold: divisions by level and kind, blocks by weekday and window."""

from dataclasses import dataclass
from datetime import time
from typing import Literal, TypeAlias

from wholeball.kernel.identity import BlockId, DivisionId

Kind: TypeAlias = Literal["open", "mixed", "women", "men"]
Weekday: TypeAlias = Literal[
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Division:
    """A division; divisions of one `league` share its limits and its suspensions."""

    division: DivisionId
    league: str
    level: str = ""
    kind: Kind = "open"


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """When a division plays: "Tuesday, 7 to 10", with places for so many teams."""

    block: BlockId
    division: DivisionId
    weekday: Weekday
    opens: time
    closes: time
    places: int
