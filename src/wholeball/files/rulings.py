"""Reads rulings.csv: one row a ruling about a game, made after it was played."""

from collections.abc import Collection
from datetime import date
from typing import Final, get_args

from wholeball.files.cells import Column, day, one_line, one_of, text, whole
from wholeball.files.ruling_checks import RulingChecks
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import GameId, Side
from wholeball.league.league import League
from wholeball.rulebook.book import Rulebook
from wholeball.season.ruling import Ruled, Ruling

FILE: Final = "rulings.csv"
COLUMNS: Final = (
    Column(name="ruling", read=whole(1, 9_999)),
    Column(name="date", read=day, needed=False),
    Column(name="game", read=one_line),
    Column(name="ruled", read=one_of(*get_args(Ruled))),
    Column(name="by", read=one_of("home", "away"), needed=False),
    Column(name="home_goals", read=whole(0, 99), needed=False),
    Column(name="away_goals", read=whole(0, 99), needed=False),
    Column(name="ref", read=one_line),
    Column(name="why", read=text),
)
"""The columns of rulings.csv; docs/reference/season-folder.md says what each means."""


def read_rulings(
    data: bytes, league: League, games: Collection[str] | None, book: Rulebook | None = None
) -> tuple[tuple[Ruling, ...], Table]:
    """Return the rulings in the order of the file, and every fault of it.

    `games` are those that a ruling can be about, and `book` has the articles that it can cite;
    None where they could not all be read.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = cells_of_rulings(data)[1]
    checks = RulingChecks(FILE, league, games, () if book is None else _refs(book))
    rulings = []
    for line in table.lines:
        faults = checks.faults(line)
        table.faults.extend(faults)
        if all(fault.level != "fault" for fault in faults):
            rulings.append(_ruling(line))
    return tuple(rulings), table


def _refs(book: Rulebook) -> tuple[str, ...]:
    """Return how people cite the articles of a rulebook, each once."""
    every = (*(article.ref for _, article in book.articles()), *(one.ref for one in book.also))
    return tuple(dict.fromkeys(every))


def cells_of_rulings(data: bytes) -> tuple[None, Table]:
    """Look at the cells only, where there is no league to hold them to.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    return None, read_table(data, COLUMNS, file=FILE)


def _ruling(line: Line) -> Ruling:
    home, away = line.get("home_goals", int), line.get("away_goals", int)
    by = line.get("by", str)
    return Ruling(
        number=line.need("ruling", int),
        game=GameId(line.need("game", str)),
        day=line.get("date", date),
        ruled=next(one for one in get_args(Ruled) if one == line.need("ruled", str)),
        goals=None if home is None or away is None else (home, away),
        by=next((side for side in get_args(Side) if side == by), None),
        ref=line.need("ref", str),
        why=line.need("why", str),
    )
