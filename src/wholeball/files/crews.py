"""Reads crews.csv: one row an official of a game's crew, with the role."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, time
from typing import Final, TypeAlias

from wholeball.files.cells import Column, day, one_line
from wholeball.files.row_faults import Known, Once, Wrong, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import GameId
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import toml_text
from wholeball.league.crew import OnCrew

FILE: Final = "crews.csv"
COLUMNS: Final = (
    Column(name="game", read=one_line),
    Column(name="role", read=one_line),
    Column(name="official", read=one_line),
    Column(name="day", read=day, needed=False),
)
"""The columns of crews.csv; docs/reference/season-folder.md says what each means."""

Starts: TypeAlias = Mapping[str, tuple[date, time]]


def read_crews(
    data: bytes,
    games: Known | None,
    officials: Known | None,
    *,
    roles: Sequence[str] | None,
    starts: Starts,
) -> tuple[tuple[OnCrew, ...], Table]:
    """Return the crews in the order of the file, and every fault of it.

    `roles` are those of the rulebook, None where it cannot be read; a role may be there twice.
    `starts` says when each game of the timetable kicks off.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    checks = _Checks(roles, starts)

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from unknown(line, "game", games, "game of timetable.csv or results.csv")
        yield from unknown(line, "official", officials, "official of officials.csv")
        yield from checks.wrong(line)

    return taken(table, wrong, _on_crew), table


class _Checks:
    """Checks the rows against the roles of a crew, and against the rows before them."""

    def __init__(self, roles: Sequence[str] | None, starts: Starts) -> None:
        self._roles = roles
        self._starts = starts
        self._on_game = Once()
        self._busy = Once()
        self._filled: dict[tuple[str, date | None, str], list[int]] = {}

    def wrong(self, line: Line) -> Iterator[Wrong]:
        yield from self._role(line)
        game, official = line.need("game", str), line.need("official", str)
        night = line.get("day", date)
        twice = [*self._on_game.twice(line, "official", (game, night, official))]
        yield from twice
        at = self._starts.get(game)
        if night is not None and at is not None and night <= at[0]:
            says = f"game {game} was not resumed on {night}: it is listed on {at[0]}."
            yield Wrong("day", "range", says, "Give the later day, or leave the column empty.")
        if at is None or twice or night is not None:
            return
        first = self._busy.earlier(line, (at, official))
        if first is not None:
            says = f"{official} works another game at {at[1]:%H:%M} on row {first}."
            yield Wrong("official", "clash", says, "Give one of the games somebody else.")

    def _role(self, line: Line) -> Iterator[Wrong]:
        """Find a role that the rulebook lacks, and one that has been filled."""
        game, role = line.need("game", str), line.need("role", str).lower()
        if self._roles is None:
            return
        if role not in self._roles:
            says = f"{toml_text(role)} is no role of the rulebook's crew."
            yield Wrong("role", "unknown_role", says, did_you_mean(role, self._roles))
            return
        rows = self._filled.setdefault((game, line.get("day", date), role), [])
        rows.append(line.row)
        if len(rows) > self._roles.count(role):
            says = f"game {game} has its {role.replace('_', ' ')} on row {rows[0]} already."
            yield Wrong("role", "duplicate", says, "Name another role, or take one out.")


def _on_crew(line: Line) -> OnCrew:
    return OnCrew(
        game=GameId(line.need("game", str)),
        role=line.need("role", str).lower(),
        official=line.need("official", str),
        day=line.get("day", date),
    )
