"""Is a thing that somebody should settle on a day of a season, and the day that it is found on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture
from wholeball.reports.night import NightGame
from wholeball.rulebook.sentence import Sentence, say
from wholeball.season.appearances import GameSheet
from wholeball.season.eligibility import Known
from wholeball.usecases.later_nights import LaterNight

Sheets: TypeAlias = Mapping[GameId, GameSheet]
Where: TypeAlias = Literal[
    "crews",
    "team",
    "scorecard",
    "certify",
    "questions",
    "rule",
    "suspensions",
    "clearances",
    "fees",
    "game",
    "reports",
]
"""Where something is settled; `of` of a line names the game or the team there."""
NOTHING: Final[Mapping[GameId, int]] = MappingProxyType({})
"""No game has a report that is not read yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToSettle:
    """One thing to settle: how far it is, what is so, and what leads to its cure."""

    state: Literal["before", "on"]
    word: str
    says: Sentence
    cure: str
    where: Where
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnDay:
    """A day of a season: its games with their crews, those that go on, what is known by then.

    Games that are off are none of `games`. `unread` counts reports about games that the reader
    has not read yet.
    """

    day: date
    games: Sequence[NightGame]
    later: Sequence[LaterNight]
    sheets: Sheets
    known: Known
    blocked: int
    unread: Mapping[GameId, int]


def about_game(game: Fixture, says: str, **named: object) -> Sentence:
    """Return a sentence that begins with a game: its night, its name and its sides."""
    return say(
        f"{{day}}, game {{game}}, {{home}} v {{away}}: {says}",
        day=day_of_season(game.day),
        game=game.game,
        home=game.home,
        away=game.away,
        **named,
    )
