"""Reads what stands in a season folder beside its games: people, places, crews, money."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from wholeball.files.alone import FILE as ALONE_FILE
from wholeball.files.alone import read_alone
from wholeball.files.crews import FILE as CREWS_FILE
from wholeball.files.crews import Starts, read_crews
from wholeball.files.discipline import FILE as DISCIPLINE_FILE
from wholeball.files.discipline import read_discipline
from wholeball.files.fees import FILE as FEES_FILE
from wholeball.files.fees import read_fees
from wholeball.files.known_persons import KnownPersons
from wholeball.files.not_cleared import FILE as NOT_CLEARED_FILE
from wholeball.files.not_cleared import read_not_cleared
from wholeball.files.officials import FILE as OFFICIALS_FILE
from wholeball.files.officials import read_officials
from wholeball.files.people import FILE as PEOPLE_FILE
from wholeball.files.people import read_people
from wholeball.files.reading import Reading
from wholeball.files.rosters import FILE as ROSTERS_FILE
from wholeball.files.row_faults import Known
from wholeball.files.sign_ups import FILE as SIGN_UPS_FILE
from wholeball.files.sign_ups import read_sign_ups
from wholeball.kernel.identity import PersonId
from wholeball.league.crew import Official, OnCrew
from wholeball.league.league import League
from wholeball.league.person import NotCleared, Person
from wholeball.league.player import Rosters, person_of
from wholeball.league.sign_up import Alone, SignUp
from wholeball.rulebook.book import Rulebook
from wholeball.season.decision import Decision
from wholeball.season.fees import FeeEntry


class Around(NamedTuple):
    """What the rest of the folder says, and these files are held to; None where it is not known."""

    league: League | None
    book: Rulebook | None
    teams: Known | None
    blocks: Known | None
    games: Known | None
    starts: Starts
    rosters: Rosters


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What stands beside the games; empty where the folder has no such file."""

    sign_ups: tuple[SignUp, ...]
    alone: tuple[Alone, ...]
    officials: tuple[Official, ...]
    people: tuple[Person, ...]
    not_cleared: tuple[NotCleared, ...]
    crews: tuple[OnCrew, ...]
    decisions: tuple[Decision, ...]
    fees: tuple[FeeEntry, ...]


def read_beside(reading: Reading, around: Around) -> Beside:
    """Return what the files beside the games hold; their faults go to the reading."""
    blocks, games, league = around.blocks, around.games, around.league
    sign_ups = reading.rows(SIGN_UPS_FILE, lambda data: read_sign_ups(data, blocks))
    alone = reading.rows(ALONE_FILE, lambda data: read_alone(data, blocks))
    officials = reading.rows(OFFICIALS_FILE, read_officials)
    listed = {
        *_on_rosters(around.rosters),
        *(one.person for one in alone),
        *(one.person for one in officials if one.person is not None),
    }
    persons = _persons(reading, listed, around.rosters)
    people = reading.rows(PEOPLE_FILE, lambda data: read_people(data, persons))
    persons = _persons(reading, {*listed, *(one.person for one in people)}, around.rosters)
    names = reading.known((one.official for one in officials), OFFICIALS_FILE)
    roles = None if around.book is None else around.book.crew.roles
    return Beside(
        sign_ups=sign_ups,
        alone=alone,
        officials=officials,
        people=people,
        not_cleared=reading.rows(
            NOT_CLEARED_FILE, lambda data: read_not_cleared(data, persons)
        ),
        crews=reading.rows(
            CREWS_FILE,
            lambda data: read_crews(data, games, names, roles=roles, starts=around.starts),
        ),
        decisions=reading.rows(
            DISCIPLINE_FILE, lambda data: read_discipline(data, league, games, persons)
        ),
        fees=reading.rows(FEES_FILE, lambda data: read_fees(data, league, around.teams, games)),
    )


def _on_rosters(rosters: Rosters) -> Iterator[PersonId]:
    for team, players in rosters.items():
        yield from (person_of(team, player) for player in players)


def _persons(reading: Reading, listed: set[PersonId], rosters: Rosters) -> KnownPersons | None:
    """Return the persons that lists name, or None where no list can be held against anything."""
    if not reading.has(ROSTERS_FILE) or reading.is_wrong(
        ROSTERS_FILE, ALONE_FILE, OFFICIALS_FILE, PEOPLE_FILE
    ):
        return None
    return KnownPersons(sorted(listed), rosters)
