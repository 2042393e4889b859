"""Reads teams.csv: one row a team, with its pool and its colours."""

from typing import Final

from wholeball.files.cells import Column, one_line, text
from wholeball.files.table import Table, read_table
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import Team

FILE: Final = "teams.csv"
COLUMNS: Final = (
    Column(name="team", read=one_line),
    Column(name="pool", read=one_line, needed=False),
    Column(name="colours", read=text, needed=False),
    Column(name="second_colours", read=text, needed=False),
)
"""The columns of teams.csv; docs/reference/season-folder.md says what each means."""

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
        if key in teams:
            says = f"{toml_text(name)} stands on row {rows[key]} too."
            fault = Fault(
                code="duplicate",
                place=table.at(line.row, "team"),
                says=says,
                value=name,
                cure="Take one out.",
            )
            table.faults.append(fault)
        else:
            rows[key] = line.row
            teams[key] = Team(
                team=TeamId(name),
                pool=PoolId(line.get("pool", str) or ONE_POOL),
                colours=line.get("colours", str) or "",
                second_colours=line.get("second_colours", str) or "",
            )
    return tuple(teams.values()), table
