"""Reads what a season folder says of its timetable to be: amounts, rules, slots and closures."""

from dataclasses import dataclass
from typing import Final

from wholeball.files.absences import FILE as ABSENCES_FILE
from wholeball.files.absences import read_absences
from wholeball.files.closures import FILE as CLOSURES_FILE
from wholeball.files.closures import Closure, read_closures
from wholeball.files.fields import FILE as FIELDS_FILE
from wholeball.files.notices import FILE as NOTICES_FILE
from wholeball.files.notices import read_notices
from wholeball.files.planning_toml import FILE as PLANNING_FILE
from wholeball.files.planning_toml import (
    PlanningToml,
    planning_unknown,
    read_planning_toml,
    spare_outside,
)
from wholeball.files.reading import Reading
from wholeball.files.row_faults import known_teams
from wholeball.files.sites import FILE as SITES_FILE
from wholeball.files.slots import FILE as SLOTS_FILE
from wholeball.files.slots import Ground, read_slots
from wholeball.league.league import League
from wholeball.league.notice import Notice
from wholeball.league.place import Field, Site, sites_of
from wholeball.planning.length import minutes_of
from wholeball.planning.problem import Slot
from wholeball.planning.rule import Rule
from wholeball.rulebook.book import Rulebook

FILES: Final = (PLANNING_FILE, SLOTS_FILE, CLOSURES_FILE, ABSENCES_FILE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Planning:
    """What the files say; `said` is None where there is no planning.toml.

    Slots stand here as slots.csv has them, those that closures close among them.
    """

    said: PlanningToml | None
    slots: tuple[Slot, ...]
    closures: tuple[Closure, ...]
    absences: tuple[Rule, ...]
    notices: tuple[Notice, ...] = ()


NO_PLANNING: Final = Planning(said=None, slots=(), closures=(), absences=())


def read_planning(
    reading: Reading,
    league: League | None,
    book: Rulebook | None,
    places: tuple[tuple[Site, ...], tuple[Field, ...]],
) -> Planning:
    """Return what the files say of the timetable; their faults go to the reading."""
    said = (
        reading.file(PLANNING_FILE, read_planning_toml) if reading.has(PLANNING_FILE) else None
    )
    if said is not None and league is not None:
        reading.faults += planning_unknown(said, league)
        reading.faults += spare_outside(said, league)
    sites, fields = places
    known_fields = reading.known((one.field for one in fields), FIELDS_FILE)
    known_sites = reading.known((one.site for one in sites), SITES_FILE)
    listed_fields = known_fields if fields else None
    listed_sites = known_sites if reading.has(SITES_FILE) else None
    ground = None
    if league is not None:
        ground = Ground(
            league=league,
            fields=listed_fields,
            sites=sites_of(fields),
            minutes=None if book is None else league_minutes(book, said),
        )
    return Planning(
        said=said,
        slots=reading.rows(SLOTS_FILE, lambda data: read_slots(data, ground)),
        closures=reading.rows(
            CLOSURES_FILE,
            lambda data: read_closures(data, league, listed_fields, listed_sites),
        ),
        absences=reading.rows(
            ABSENCES_FILE,
            lambda data: read_absences(
                data, league, None if league is None else known_teams(league)
            ),
        ),
        notices=reading.rows(
            NOTICES_FILE,
            lambda data: read_notices(data, league, listed_fields, listed_sites),
        ),
    )


def league_minutes(book: Rulebook, said: PlanningToml | None) -> int:
    """Return the minutes that a slot of a league game has at least."""
    return _minutes(book, said, is_play_off=False)


def play_off_minutes(book: Rulebook, said: PlanningToml | None) -> int:
    """Return the minutes that a slot of a play-off game has at least."""
    return _minutes(book, said, is_play_off=True)


def _minutes(book: Rulebook, said: PlanningToml | None, *, is_play_off: bool) -> int:
    entry = None if said is None else said.entry
    return minutes_of(
        book,
        turnover=TURNOVER if entry is None else entry.turnover_minutes,
        kicks=TURNOVER if entry is None else entry.kicks_minutes,
        is_play_off=is_play_off,
    )


TURNOVER: Final = 10
"""The minutes of a turnover, and of kicks from the mark, where planning.toml is silent.

Common practice, no source.
"""
