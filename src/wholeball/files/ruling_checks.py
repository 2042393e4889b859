"""Finds what is wrong with a row of rulings.csv once each of its cells is read."""

import re
from collections.abc import Collection, Iterator
from datetime import date
from typing import Final

from wholeball.files.row_faults import Known, Wrong, outside_season, row_fault
from wholeball.files.table import Line
from wholeball.kernel.faults import Fault
from wholeball.kernel.nearest import nearest
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import League

_ARTICLE: Final = re.compile(r"([A-Za-z]{1,8})\s?\d+(?:\.\d+)*")
"""What people cite articles by: "H 12.1", "Law 3.2"."""
_GOALS: Final = ("home_goals", "away_goals")


class RulingChecks:
    """Checks the rows of one file against the games, the season, and the rows before them."""

    def __init__(
        self, file: str, league: League, games: Collection[str] | None, refs: Collection[str]
    ) -> None:
        self._file = file
        self._league = league
        self._games = None if games is None else Known(games, "Use a game of timetable.csv.")
        self._refs = {_plain(ref): ref for ref in refs}
        self._rows: dict[int, int] = {}

    def faults(self, line: Line) -> list[Fault]:
        """Return everything wrong with a row; an empty list is a pass."""
        wrong = [
            *self._identity(line),
            *outside_season(self._league, line.get("date", date)),
            *self._game(line),
            *_by(line),
            *_awarded(line),
            *self._ref(line),
        ]
        return [row_fault(self._file, line, one) for one in wrong]

    def _identity(self, line: Line) -> Iterator[Wrong]:
        number = line.need("ruling", int)
        first = self._rows.setdefault(number, line.row)
        if first != line.row:
            says = f"ruling {number} stands on row {first} too."
            cure = "Give the later one the next number: the last about a game holds."
            yield Wrong("ruling", "duplicate", says, cure)

    def _game(self, line: Line) -> Iterator[Wrong]:
        game = line.need("game", str)
        if self._games is not None and game not in self._games:
            says = f"{toml_text(game)} is no game of timetable.csv or results.csv."
            yield Wrong("game", "unknown_game", says, self._games.meant(game))

    def _ref(self, line: Line) -> Iterator[Wrong]:
        """Doubt what looks like an article of the rulebook and is none; other words are free."""
        ref = line.need("ref", str)
        looks = _ARTICLE.fullmatch(ref)
        kinds = {
            found[1].lower() for one in self._refs.values() if (found := _ARTICLE.match(one))
        }
        if not looks or looks[1].lower() not in kinds or _plain(ref) in self._refs:
            return
        near = nearest(ref, self._refs.values())
        says = f"{toml_text(ref)} is no article of rulebook.toml."
        cure = f"Did you mean {near}?" if near else "Cite an article of the rulebook."
        yield Wrong("ref", "unknown_article", says, cure, level="doubt")


def _plain(ref: str) -> str:
    return re.sub(r"\s", "", ref).lower()


def _by(line: Line) -> Iterator[Wrong]:
    ruled, by = line.need("ruled", str), line.get("by", str)
    if ruled == "forfeit" and by is None:
        yield Wrong("by", "missing", "a forfeit needs to say by whom.", "Write home or away.")
    if ruled != "forfeit" and by is not None:
        says = f"by is {by}, but the game is ruled {ruled}."
        yield Wrong("by", "contradiction", says, "Only a forfeit is by a side; leave it empty.")


def _awarded(line: Line) -> Iterator[Wrong]:
    ruled = line.need("ruled", str)
    for column in _GOALS:
        given = line.get(column, int) is not None
        if ruled == "awarded" and not given:
            says = f"a game that is awarded needs {column}."
            yield Wrong(column, "missing", says, "Write the goals that it counts as, 0 to 99.")
        if ruled != "awarded" and given:
            says = f"{column} is given, but the game is ruled {ruled}."
            cure = "Leave it empty: only a game that is awarded gets its goals here."
            yield Wrong(column, "contradiction", says, cure)
