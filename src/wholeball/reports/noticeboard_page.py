"""Makes the front page of a public season: tonight first, then the doors to everything else."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from wholeball.reports.index_page import Door
from wholeball.reports.shell import Page, Shell, Spot, rendered

Word: TypeAlias = Literal["on", "off", "later", "over", "none"]
"""What holds for a game; `over` is one that has a result."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceTold:
    """What is told of one place tonight; `more` is a public sentence, empty where none was given."""

    place: str
    word: Word
    says: str
    more: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TonightTold:
    """The line that everybody reads first, and the places one by one where they differ."""

    word: Word
    says: str
    more: tuple[str, ...] = ()
    places: tuple[PlaceTold, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GameTonight:
    """A game of tonight by its start and field; `word` is that of its field.

    Where it has a result there is a `score`, and `says` only that this is not certified.
    """

    at: str
    home: str
    away: str
    field: str
    word: Word
    says: str
    href: str = ""
    score: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeboardTold:
    """What stands on the front page; `night` names today in words."""

    league: str
    night: str
    tonight: TonightTold
    games: tuple[GameTonight, ...]
    doors: tuple[Door, ...]


def noticeboard_page(told: NoticeboardTold, *, shell: Shell, here: str) -> str:
    """Return the front page of a season."""
    return rendered(
        "noticeboard.html",
        Page(
            here=here,
            title=told.league,
            about="noticeboard",
            spot=Spot.counting(len(told.games), "game tonight", "games tonight"),
        ),
        shell,
        told=told,
    )
