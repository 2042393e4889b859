"""Reads the words for a side of a play-off game that is still to be known."""

import re
from typing import Final

from wholeball.kernel.identity import GameId
from wholeball.league.fixture import From, OpenSide, Seeded

_SEED: Final = re.compile(r"seed\s+([0-9]{1,3})(?:\s+of\s+(\S.*))?", re.IGNORECASE)
_FROM: Final = re.compile(r"(winner|loser)\s+of\s+(\S.*)", re.IGNORECASE)


def open_side(cell: str) -> OpenSide | None:
    """Return the side that `seed 3`, `winner of P1` or `loser of P1` stands for, or None."""
    if (seeded := _SEED.fullmatch(cell)) is not None:
        return Seeded(seed=int(seeded[1]), bracket=seeded[2] or "")
    if (fed := _FROM.fullmatch(cell)) is not None:
        return From(
            game=GameId(fed[2]), takes="winner" if fed[1].lower() == "winner" else "loser"
        )
    return None


def planned_side(text: str) -> OpenSide | None:
    """Return the side of a game to be planned: as `open_side`, but no seed before the first."""
    side = open_side(text)
    return None if isinstance(side, Seeded) and side.seed < 1 else side


def looks_open(name: str) -> bool:
    """Tell whether a team's name could be taken for a side still to be known."""
    return open_side(name) is not None
