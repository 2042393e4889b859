"""Finds the later nights of games that were stopped: those known of, and those that may come."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from wholeball.files.folder import SeasonFolder
from wholeball.league.fixture import Fixture


@dataclass(frozen=True, slots=True, kw_only=True)
class LaterNight:
    """A game that was stopped, on a later night; `before` is its night before that one.

    None `is_named` that may come, while nobody has named a crew for it.
    """

    fixture: Fixture
    day: date
    before: date
    is_named: bool = True


def later_nights(read: SeasonFolder) -> tuple[LaterNight, ...]:
    """Return every later night that a crew is named for or a log tells, by day and by game."""
    last = {one.game: one.day for one in read.timetable}
    found = []
    for day, one in sorted(_known(read), key=lambda each: (each[0], each[1].game)):
        found.append(LaterNight(fixture=one, day=day, before=last[one.game]))
        last[one.game] = day
    return tuple(found)


def on_night(read: SeasonFolder, night: date) -> tuple[LaterNight, ...]:
    """Return the games that go on on a night, and then those that were stopped and may."""
    known = later_nights(read)
    last = {one.fixture.game: one.day for one in known}
    return (
        *(one for one in known if one.day == night),
        *(
            LaterNight(fixture=one, day=night, before=before, is_named=False)
            for one in _stopped(read)
            if (before := last.get(one.game, one.day)) < night
        ),
    )


def _known(read: SeasonFolder) -> set[tuple[date, Fixture]]:
    games = {one.game: one for one in read.timetable}
    by_crew = {
        (one.day, games[one.game])
        for one in read.crews
        if one.day is not None and one.game in games
    }
    by_log = {
        (day, sheet.fixture)
        for sheet in read.sheets
        for day in sheet.resumed_on
        if day is not None and day > sheet.fixture.day
    }
    return by_crew | by_log


def _stopped(read: SeasonFolder) -> Iterator[Fixture]:
    """Yield the games that were stopped and are still to go on: nobody has ruled on them."""
    return (one.fixture for one in read.sheets if one.to_go_on and not one.has_ended)
