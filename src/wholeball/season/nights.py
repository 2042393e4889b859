"""Parts a game into its nights: the one it is listed on, and those on which it was resumed."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, time
from typing import Final

from wholeball.league.fixture import Fixture
from wholeball.season.appearances import GameSheet

_AFTER_ALL: Final = time.max
"""Stands for the end of a day: nobody writes down when a game is resumed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Night:
    """One night of a game, from 1; `is_last` of those that are known of."""

    fixture: Fixture
    number: int
    begins: tuple[date, time]
    is_last: bool


def nights_of(fixture: Fixture, sheet: GameSheet | None, on: date) -> Iterator[Night]:
    """Yield the nights of a game; one whose day is not written down is taken to be on `on`."""
    later = 0 if sheet is None else len(sheet.resumed_on)
    first = (fixture.day, fixture.start)
    yield Night(fixture=fixture, number=1, begins=first, is_last=not later)
    for number in range(2, 2 + later):
        day = (None if sheet is None else sheet.day_of(number)) or on
        yield Night(
            fixture=fixture,
            number=number,
            begins=(day, _AFTER_ALL),
            is_last=number == 1 + later,
        )


def known_by(sheet: GameSheet, on: date) -> GameSheet:
    """Return what a game says as of a day: what comes after a later night is still to come."""
    days = [sheet.day_of(number) for number in range(2, 2 + len(sheet.resumed_on))]
    known = 1 + next((at for at, day in enumerate(days) if day and day > on), len(days))
    if known > len(days):
        return sheet
    return replace(
        sheet,
        result=None,
        cards=tuple(one for one in sheet.cards if one.night <= known),
        resumed_on=sheet.resumed_on[: known - 1],
    )
