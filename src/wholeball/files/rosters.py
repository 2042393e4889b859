"""Reads rosters.csv: one row a player of a team, with a shirt number where there is one."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import Final

from wholeball.files.cells import Column, day, one_line, one_of, whole
from wholeball.files.person_codes import BARRED, NO_IDS, id_end, person_code
from wholeball.files.row_faults import Known, Wrong, row_fault
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import PersonId, TeamId
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import League
from wholeball.league.player import Player, Rosters
from wholeball.rulebook.tables.people import Roster

FILE: Final = "rosters.csv"
COLUMNS: Final = (
    Column(name="team", read=one_line),
    Column(name="number", read=whole(0, 99), needed=False),
    Column(name="name", read=one_line),
    Column(name="captain", read=one_of("yes", "no"), needed=False),
    Column(name="person", read=person_code, needed=False),
    Column(name="id_end", read=id_end, needed=False),
    Column(name="added", read=day, needed=False),
)
"""The columns of rosters.csv; docs/reference/season-folder.md says what each means."""

_LIKE_AN_ID = re.compile(r"[0-9]{5,}")


@dataclass(slots=True)
class _Team:
    players: list[Player] = field(default_factory=list)
    numbers: dict[int, int] = field(default_factory=dict)
    names: dict[str, int] = field(default_factory=dict)
    persons: dict[str, int] = field(default_factory=dict)
    captain: int | None = None


def read_rosters(data: bytes, league: League, rules: Roster) -> tuple[Rosters, Table]:
    """Return the players of each team in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = cells_of_rosters(data)[1]
    teams = {str(team.team): _Team() for team in league.teams}
    known = Known(teams, "Use a name of teams.csv.")
    for line in table.lines:
        name = line.need("team", str)
        if name in known:
            wrong = list(_judged(line, teams[name], rules))
            teams[name].players.append(_player(line))
        else:
            says = f"{toml_text(name)} is no team of teams.csv."
            wrong = [Wrong("team", "unknown_team", says, known.meant(name))]
        table.faults.extend(row_fault(FILE, line, one) for one in wrong)
    rosters = {TeamId(name): tuple(one.players) for name, one in teams.items() if one.players}
    return rosters, table


def cells_of_rosters(data: bytes) -> tuple[None, Table]:
    """Look at the cells only, where there is no league to hold them to.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE, barred=BARRED)
    for line in table.lines:
        table.faults.extend(with_an_id(table, line))
    return None, table


def _player(line: Line) -> Player:
    person = line.get("person", str)
    return Player(
        name=line.need("name", str),
        number=line.get("number", int),
        is_captain=line.get("captain", str) == "yes",
        person=None if person is None else PersonId(person),
        id_end=line.get("id_end", str) or "",
        added=line.get("added", date),
    )


def _judged(line: Line, team: _Team, rules: Roster) -> Iterator[Wrong]:
    yield from _number_taken(line, team)
    yield from _named_twice(line, team)
    yield from _listed_twice(line, team)
    yield from _second_captain(line, team)
    if rules.maximum != "no_limit" and len(team.players) == rules.maximum:
        says = f"{line.need('team', str)} lists more than {rules.maximum} players."
        cure = f"The rulebook allows no more ({rules.ref or 'roster'})."
        yield Wrong("team", "limits", says, cure, "doubt")


def _number_taken(line: Line, team: _Team) -> Iterator[Wrong]:
    """Find a number worn twice; 7 and 07 were read as the same one."""
    number = line.get("number", int)
    if number is None:
        return
    first = team.numbers.setdefault(number, line.row)
    if first != line.row:
        says = f"number {number} of {line.need('team', str)} stands on row {first} too."
        yield Wrong("number", "duplicate", says, "Give another number, or leave it empty.")


def _named_twice(line: Line, team: _Team) -> Iterator[Wrong]:
    """Doubt a name that stands twice, unless the second has a code: people share names."""
    name = line.need("name", str)
    first = team.names.setdefault(name.casefold(), line.row)
    if first != line.row and line.get("person", str) is None:
        says = f"{toml_text(name)} stands on row {first} too."
        yield Wrong(
            "name", "duplicate", says, "Take one out if it is the same person.", "doubt"
        )


def _listed_twice(line: Line, team: _Team) -> Iterator[Wrong]:
    """Find one person twice on a roster; on two rosters is for eligibility to judge."""
    person = line.get("person", str)
    if person is None:
        return
    first = team.persons.setdefault(person, line.row)
    if first != line.row:
        says = f"{toml_text(person)} stands on row {first} of {line.need('team', str)} too."
        yield Wrong("person", "duplicate", says, "A team lists a person once; take one out.")


def _second_captain(line: Line, team: _Team) -> Iterator[Wrong]:
    if line.get("captain", str) != "yes":
        return
    if team.captain is not None:
        says = f"{line.need('team', str)} has a captain on row {team.captain} already."
        yield Wrong("captain", "duplicate", says, "A side has one captain.")
    else:
        team.captain = line.row


def with_an_id(table: Table, line: Line) -> Iterator[Fault]:
    """Find what looks like a student id in a name, and do not repeat it."""
    if _LIKE_AN_ID.search(line.need("name", str)):
        yield Fault(
            code="private",
            place=table.at(line.row, "name"),
            says=f"the name holds a long number; {NO_IDS}.",
            cure="Leave the number out.",
        )
