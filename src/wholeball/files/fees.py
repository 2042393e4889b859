"""Reads fees.csv: one row what was paid or waived of the fee for a forfeit."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Final, get_args

from wholeball.files.cells import Column, day, decimal, one_line, one_of, text
from wholeball.files.row_faults import Known, Wrong, outside_season, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.league import League
from wholeball.season.fees import FeeEntry, Ledger, Settling

FILE: Final = "fees.csv"
COLUMNS: Final = (
    Column(name="date", read=day),
    Column(name="team", read=one_line),
    Column(name="game", read=one_line),
    Column(name="what", read=one_of(*get_args(Settling))),
    Column(name="amount", read=decimal),
    Column(name="why", read=text, needed=False),
)
"""The columns of fees.csv; docs/reference/season-folder.md says what each means."""


def read_fees(
    data: bytes, league: League | None, teams: Known | None, games: Known | None
) -> tuple[tuple[FeeEntry, ...], Table]:
    """Return the entries in the order of the file, and every fault of it.

    A fee may be paid in parts, on one day too.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)

    def wrong(line: Line) -> Iterator[Wrong]:
        if league is not None:
            yield from outside_season(league, line.get("date", date))
        yield from unknown(line, "team", teams, "team of teams.csv")
        yield from unknown(line, "game", games, "game of timetable.csv or results.csv")
        yield from _settles(line)

    return taken(table, wrong, _entry), table


def fee_doubts(found: Ledger) -> Iterator[Fault]:
    """Doubt entries for what costs nothing, and dues for which too much came in."""
    for entry in found.idle:
        says = f"{entry.amount} is {entry.what} by {entry.team} for game {entry.game}, which costs it nothing."
        cure = "Mend the team or the game, or give the money back."
        yield _doubt("no_fee", says, cure)
    for due in found.dues:
        if due.over:
            says = f"{due.team} owed {due.amount} for game {due.game}; {due.over} too much is settled."
            yield _doubt("overpaid", says, "Mend the amounts, or give the rest back.")


def _settles(line: Line) -> Iterator[Wrong]:
    if not line.need("amount", Decimal):
        yield Wrong("amount", "range", "amount is 0.", "Give more than 0, or take it out.")
    if line.need("what", str) == "waived" and line.get("why", str) is None:
        yield Wrong("why", "missing", "a fee is waived without a reason.", "Say why.")


def _doubt(code: str, says: str, cure: str) -> Fault:
    return Fault(code=code, place=Place(file=FILE), says=says, cure=cure, level="doubt")


def _entry(line: Line) -> FeeEntry:
    what = line.need("what", str)
    return FeeEntry(
        day=line.need("date", date),
        team=TeamId(line.need("team", str)),
        game=GameId(line.need("game", str)),
        what=next(one for one in get_args(Settling) if one == what),
        amount=line.need("amount", Decimal),
        why=line.get("why", str) or "",
    )
