"""Stops a game before half of it was played, and lets it go on; the rulebook has it resumed."""

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Final

from cases.people_season import enter
from wholeball.game.paper import PaperBrokenOff, PaperCard, PaperRating, PaperResumed
from wholeball.game.state import Score

STOPPED: Final = PaperCard(
    periods=(Score(1, 0),), broken_off=PaperBrokenOff(why="weather"), minutes_left=14
)
SUNDAY: Final = date(2026, 9, 20)
"""A day on which the timetable has no game."""


def went_on(day: date | None) -> PaperCard:
    """Return the scorecard of the whole game, after it went on on a day."""
    resumed = PaperResumed(why="weather", period=1, minutes_left=14, on=day)
    rating = PaperRating(side="home", value=Decimal(4))
    return PaperCard(periods=(Score(1, 0), Score(0, 0)), resumed=resumed, ratings=(rating,))


def stop(folder: Path, game: str) -> Path:
    """Enter a game that was stopped, and return the folder."""
    enter(folder, game, STOPPED)
    return folder
