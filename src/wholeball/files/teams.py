"""Reads teams.csv: one row a team, with its pool and its colours."""

from typing import Final

from wholeball.files.cells import Column, text
from wholeball.files.table import Table, read_table
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.league.league import Team

FILE: Final = "teams.csv"
COLUMNS: Final = (
    Column(name="team", read=text),
    Column(name="pool", read=text, needed=False),
    Column(name="colours", read=text, needed=False),
    Column(name="second_colours", read=text, needed=False),
)
"""The columns of teams.csv; docs/reference/season-folder.md says what each means."""

LONGEST_NAME: Final = 80
ONE_POOL: Final = PoolId("A")


def read_teams(data: bytes) -> tuple[tuple[Team, ...], Table]:
    """Return the teams in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    teams: dict[str, Team] = {}
    rows: dict[str, int] = {}
    for line in table.lines:
        name = line.need("team", str)
        key = name.casefold()
        if len(name) > LONGEST_NAME:
            says = f"the name has {len(name)} characters; at most {LONGEST_NAME}."
            table.faults.append(_fault(table, line.row, "limits", says, "Shorten it."))
        elif key in teams:
            says = f"{name!r} stands on row {rows[key]} too."
            table.faults.append(_fault(table, line.row, "duplicate", says, "Take one out."))
        else:
            rows[key] = line.row
            teams[key] = Team(
                team=TeamId(name),
                pool=PoolId(line.get("pool", str) or ONE_POOL),
                colours=line.get("colours", str) or "",
                second_colours=line.get("second_colours", str) or "",
            )
    return tuple(teams.values()), table


def _fault(table: Table, row: int, code: str, says: str, cure: str) -> Fault:
    return Fault(code=code, place=table.at(row, "team"), says=says, cure=cure)
