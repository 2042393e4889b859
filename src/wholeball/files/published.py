"""Reads published.csv: a table that somebody else published, to hold ours against."""

from typing import Final

from wholeball.files.cells import Column, one_line, whole
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import League
from wholeball.season.published import PublishedLine

FILE: Final = "published.csv"
COLUMNS: Final = (
    Column(name="team", read=one_line),
    Column(name="place", read=whole(1, 999)),
    Column(name="played", read=whole(0, 999), needed=False),
    Column(name="won", read=whole(0, 999), needed=False),
    Column(name="drawn", read=whole(0, 999), needed=False),
    Column(name="lost", read=whole(0, 999), needed=False),
    Column(name="goals_for", read=whole(0, 9_999), needed=False),
    Column(name="goals_against", read=whole(0, 9_999), needed=False),
    Column(name="points", read=whole(0, 9_999), needed=False),
)
"""The columns of published.csv; docs/reference/season-folder.md says what each means."""


def read_published(data: bytes, league: League) -> tuple[tuple[PublishedLine, ...], Table]:
    """Return the published lines of a league's teams, and every fault of the file.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    known = {str(team.team): None for team in league.teams}
    rows: dict[str, int] = {}
    for line in table.lines:
        name = line.need("team", str)
        first = rows.setdefault(name, line.row)
        if name not in known:
            says = f"{toml_text(name)} is no team of teams.csv."
            cure = did_you_mean(name, known)
            table.faults.append(_fault(table, line, "unknown_team", says, cure))
        elif first != line.row:
            says = f"{toml_text(name)} stands on row {first} too."
            table.faults.append(_fault(table, line, "duplicate", says, "Take one out."))
    return tuple(map(_row, table.lines)), table


def _fault(table: Table, line: Line, code: str, says: str, cure: str) -> Fault:
    place, value = table.at(line.row, "team"), line.need("team", str)
    return Fault(code=code, place=place, says=says, value=value, cure=cure)


def _row(line: Line) -> PublishedLine:
    return PublishedLine(
        team=TeamId(line.need("team", str)),
        place=line.need("place", int),
        figures=tuple(line.get(column.name, int) for column in COLUMNS[2:]),
    )
