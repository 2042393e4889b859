"""Says who meets in a play-off game before any team is known: a seed, the winner of another."""

from dataclasses import replace
from typing import Final

from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import OpenSide, Seeded

_BETWEEN: Final = " – "  # noqa: RUF001 - a dash as between scores, and no sign of less


def meeting_words(home: TeamId | OpenSide, away: TeamId | OpenSide, *, within: str = "") -> str:
    """Return both sides; `within` is the bracket that is named above, and not said again."""
    return f"{_upper(_side(home, within))}{_BETWEEN}{_side(away, within)}"


def _side(side: TeamId | OpenSide, within: str) -> str:
    """Return a side as people say it: seeds have a capital like a name, "winner of" has none."""
    if isinstance(side, Seeded):
        is_said = side.bracket == within
        return _upper(str(replace(side, bracket="") if is_said else side))
    return str(side)


def _upper(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
