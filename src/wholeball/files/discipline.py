"""Reads discipline.csv: one row a decision about a person; the reasons are private."""

from collections.abc import Iterator
from datetime import date
from typing import Final, get_args

from wholeball.files.cells import Column, day, one_line, one_of, text, whole
from wholeball.files.known_persons import KnownPersons, person_in, wrong_person
from wholeball.files.person_codes import BARRED, person_code
from wholeball.files.row_faults import Known, Once, Wrong, outside_season, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import GameId
from wholeball.league.league import League
from wholeball.season.decision import Decided, Decision

FILE: Final = "discipline.csv"
COLUMNS: Final = (
    Column(name="ruling", read=whole(1, 9_999)),
    Column(name="date", read=day),
    Column(name="person", read=person_code),
    Column(name="game", read=one_line, needed=False),
    Column(name="ruled", read=one_of(*get_args(Decided))),
    Column(name="games", read=whole(1, 99), needed=False),
    Column(name="until", read=day, needed=False),
    Column(name="ref", read=one_line),
    Column(name="why", read=text),
)
"""The columns of discipline.csv; docs/reference/season-folder.md says what each means."""

_TERMS: Final = {"games": "the number of games", "until": "the last day"}


def read_discipline(
    data: bytes, league: League | None, games: Known | None, persons: KnownPersons | None
) -> tuple[tuple[Decision, ...], Table]:
    """Return the decisions in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE, barred=BARRED)
    once = Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from once.twice(line, "ruling", line.need("ruling", int))
        if league is not None:
            yield from outside_season(league, line.get("date", date))
        yield from unknown(line, "game", games, "game of timetable.csv or results.csv")
        yield from wrong_person(line, persons)
        yield from _terms(line)

    return taken(table, wrong, lambda line: _decision(line, persons)), table


def _terms(line: Line) -> Iterator[Wrong]:
    """Find a suspension without its length, a length of what is none, and one that is over."""
    ruled, until = line.need("ruled", str), line.get("until", date)
    for column, what in _TERMS.items():
        given = line.cells.get(column) is not None
        if ruled == column and not given:
            yield Wrong(column, "missing", f"{column} is empty.", f"Write {what}.")
        if ruled != column and given:
            says = f"{column} is given, but ruled is {ruled}."
            yield Wrong(column, "contradiction", says, f"Leave it empty, or rule {column}.")
    if ruled == "until" and until is not None and until < line.need("date", date):
        says = f"the suspension ends on {until}, before it was ruled."
        yield Wrong("until", "contradiction", says, "Mend one of the two days.")


def _decision(line: Line, persons: KnownPersons | None) -> Decision:
    game, ruled = line.get("game", str), line.need("ruled", str)
    return Decision(
        number=line.need("ruling", int),
        day=line.need("date", date),
        person=person_in(line, persons),
        game=None if game is None else GameId(game),
        ruled=next(one for one in get_args(Decided) if one == ruled),
        games=line.get("games", int),
        until=line.get("until", date),
        ref=line.need("ref", str),
        why=line.need("why", str),
    )
