"""Takes suspensions and eligibility from a season folder as it was read."""

from datetime import date
from typing import NamedTuple

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.player import person_of
from wholeball.league.record import LeagueRecord
from wholeball.season.discipline import Played, discipline
from wholeball.season.eligibility import Known
from wholeball.season.fees import fees_of
from wholeball.season.suspension import Discipline


class OnRoster(NamedTuple):
    """Where a person stands on a roster, and by which name and number."""

    team: TeamId
    name: str
    number: int | None


def discipline_of(read: SeasonFolder, on: date) -> Discipline:
    """Return the suspensions of a season as they stand on a day."""
    played = Played(
        league=read.season.league,
        rosters=read.rosters,
        fixtures=read.timetable,
        sheets=read.sheets,
        decisions=read.decisions,
        rulings=read.season.rulings,
    )
    return discipline(played, read.season.rulebook, on=on)


def known_of(read: SeasonFolder, on: date) -> Known:
    """Return all that eligibility is computed from, as known on a day."""
    return Known(
        book=read.season.rulebook,
        league=read.season.league,
        rosters=read.rosters,
        fixtures=read.timetable,
        sheets=read.sheets,
        discipline=discipline_of(read, on),
        people={one.person: one for one in read.people},
        not_cleared=read.not_cleared,
        fees=fees_of(read.season, read.fees),
    )


def on_rosters(read: SeasonFolder) -> dict[PersonId, tuple[OnRoster, ...]]:
    """Return where each person stands on rosters, in the order of the file."""
    found: dict[PersonId, list[OnRoster]] = {}
    for team, players in read.rosters.items():
        for one in players:
            found.setdefault(person_of(team, one), []).append(
                OnRoster(team, one.name, one.number)
            )
    return {person: tuple(lines) for person, lines in found.items()}


def people_of_folder(record: LeagueRecord, on: date) -> tuple[SeasonFolder, Discipline]:
    """Return a folder, and the suspensions of its season as they stand on a day.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder.
    """
    read = read_folder(record)
    return read, discipline_of(read, on)
