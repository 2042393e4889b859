"""Tells of each game that has a result whether that is certified."""

from typing import Literal, TypeAlias

from wholeball.files.folder import SeasonFolder
from wholeball.kernel.identity import GameId
from wholeball.season.ruled import holding

HowFar: TypeAlias = Literal["certified", "not certified"]


def settled(read: SeasonFolder) -> dict[GameId, HowFar]:
    """Return how far each game is that has a result; what a ruling or a row says is certified."""
    words: dict[GameId, HowFar] = {
        one.fixture.game: "certified"
        if one.is_certified or one.fixture.game in read.rows
        else "not certified"
        for one in read.sheets
        if one.has_ended
    }
    ruled: dict[GameId, HowFar] = dict.fromkeys(holding(read.season.rulings), "certified")
    return {**words, **ruled}
