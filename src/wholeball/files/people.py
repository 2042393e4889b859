"""Reads people.csv: one row a person, with what is privately known of them."""

from collections.abc import Iterator
from datetime import date
from typing import Final, get_args

from wholeball.files.cells import Column, day, one_of, some_of
from wholeball.files.known_persons import KnownPersons, person_in, wrong_person
from wholeball.files.person_codes import BARRED, person_code
from wholeball.files.row_faults import Once, Wrong, taken
from wholeball.files.table import Line, Table, read_table
from wholeball.league.person import Gender, Membership, Person, Shown

FILE: Final = "people.csv"
COLUMNS: Final = (
    Column(name="person", read=person_code),
    Column(name="gender", read=one_of(*get_args(Gender)), needed=False),
    Column(name="waiver_until", read=day, needed=False),
    Column(name="member_of", read=some_of(*get_args(Membership)), needed=False),
    Column(name="shown", read=one_of(*get_args(Shown)), needed=False),
)
"""The columns of people.csv; docs/reference/season-folder.md says what each means."""


def read_people(data: bytes, persons: KnownPersons | None) -> tuple[tuple[Person, ...], Table]:
    """Return the people in the order of the file, and every fault of it.

    A person on no list is a doubt: they may have left.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE, barred=BARRED)
    once = Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from once.twice(line, "person", person_in(line, persons))
        yield from wrong_person(line, persons)

    return taken(table, wrong, lambda line: _person(line, persons)), table


def _person(line: Line, persons: KnownPersons | None) -> Person:
    gender, words = line.get("gender", str), (line.get("member_of", str) or "").split()
    shown = line.get("shown", str) or "initial"
    return Person(
        person=person_in(line, persons),
        gender=next((one for one in get_args(Gender) if one == gender), None),
        waiver_until=line.get("waiver_until", date),
        member_of=tuple(one for one in get_args(Membership) if one in words),
        shown=next(one for one in get_args(Shown) if one == shown),
    )
