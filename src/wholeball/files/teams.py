"""Reads teams.csv: one row a team, with its pool, its division and block, and its colours."""

from collections.abc import Iterator, Mapping
from typing import Final

from wholeball.files.cells import Column, one_line, text
from wholeball.files.open_sides import looks_open
from wholeball.files.row_faults import Known, Once, Wrong, row_fault, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import BlockId, DivisionId, PoolId, TeamId
from wholeball.kernel.refusals import toml_text
from wholeball.league.division import Block, Division
from wholeball.league.league import Team

FILE: Final = "teams.csv"
COLUMNS: Final = (
    Column(name="team", read=one_line),
    Column(name="pool", read=one_line, needed=False),
    Column(name="colours", read=text, needed=False),
    Column(name="second_colours", read=text, needed=False),
    Column(name="division", read=one_line, needed=False),
    Column(name="block", read=one_line, needed=False),
)
"""The columns of teams.csv; docs/reference/season-folder.md says what each means."""

ONE_POOL: Final = PoolId("A")


def read_teams(
    data: bytes,
    divisions: tuple[Division, ...] | None = (),
    blocks: tuple[Block, ...] | None = (),
) -> tuple[tuple[Team, ...], Table]:
    """Return the teams in the order of the file, and every fault of it.

    A team is returned whatever is wrong with its row, so that other files may name it. Divisions or blocks are None where their files cannot be read.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    checks = _Checks(divisions, blocks)
    teams: dict[str, Team] = {}
    for line in table.lines:
        table.faults.extend(row_fault(FILE, line, wrong) for wrong in checks.wrong(line))
        teams.setdefault(line.need("team", str).casefold(), checks.team(line))
    return tuple(teams.values()), table


class _Checks:
    """Checks the rows of one file against divisions, blocks, and the rows before them."""

    def __init__(
        self, divisions: tuple[Division, ...] | None, blocks: tuple[Block, ...] | None
    ) -> None:
        self._divisions = _known((one.division for one in divisions or ()), "divisions.csv")
        self._blocks = _known((one.block for one in blocks or ()), "blocks.csv")
        self._are_known = divisions is not None and blocks is not None
        self._by_block: Mapping[str, Block] = {one.block: one for one in blocks or ()}
        self._teams = Once()
        self._pools: dict[str, tuple[int, DivisionId | None]] = {}
        self._taken: dict[str, int] = {}

    def wrong(self, line: Line) -> Iterator[Wrong]:
        """Find everything wrong with a row."""
        name = line.need("team", str)
        yield from self._teams.twice(line, "team", name.casefold())
        if looks_open(name):
            says = f"{toml_text(name)} reads like a side of a play-off game still to be known."
            yield Wrong("team", "ambiguous", says, "Give the team another name.")
        if not self._are_known:
            return
        lacking = [
            *unknown(line, "division", self._divisions, "division of divisions.csv"),
            *unknown(line, "block", self._blocks, "block of blocks.csv"),
        ]
        yield from lacking
        if not lacking:
            yield from self._block(line)
            yield from self._pool(line)

    def team(self, line: Line) -> Team:
        """Return the team of a row in which nothing is wrong."""
        block = line.get("block", str)
        return Team(
            team=TeamId(line.need("team", str)),
            pool=self._pool_of(line),
            colours=line.get("colours", str) or "",
            second_colours=line.get("second_colours", str) or "",
            division=self._division(line),
            block=None if block is None else BlockId(block),
        )

    def _division(self, line: Line) -> DivisionId | None:
        """Return the division that a row names, or else that of its block."""
        division, block = line.get("division", str), line.get("block", str)
        if division is not None:
            return DivisionId(division)
        sold = None if block is None else self._by_block.get(block)
        return None if sold is None else sold.division

    def _pool_of(self, line: Line) -> PoolId:
        """Return the pool that a row names, or else one for its division, or one for all."""
        return PoolId(line.get("pool", str) or self._division(line) or ONE_POOL)

    def _block(self, line: Line) -> Iterator[Wrong]:
        """Find a block of another division, and doubt more teams than it has places."""
        name, division = line.get("block", str), line.get("division", str)
        if name is None:
            return
        block = self._by_block[name]
        if division is not None and block.division != division:
            says = f"block {name} is of division {block.division}, the team of {division}."
            yield Wrong("block", "contradiction", says, "Mend the block, or the division.")
        self._taken[name] = self._taken.get(name, 0) + 1
        if self._taken[name] == block.places + 1:
            says = f"block {name} has {block.places} places, and this team is one too many."
            cure = "Give it another block, or mend its places in blocks.csv."
            yield Wrong("block", "limits", says, cure, "doubt")

    def _pool(self, line: Line) -> Iterator[Wrong]:
        """Find a team whose pool has begun in another division."""
        mine = self._division(line)
        pool = self._pool_of(line)
        row, other = self._pools.setdefault(pool, (line.row, mine))
        if other != mine:
            where = [f"division {one}" if one else "no division" for one in (other, mine)]
            says = f"pool {pool} is of {where[0]} on row {row}, and of {where[1]} here."
            cure = "Teams of a pool are of one division: mend it, or name another pool."
            yield Wrong("pool", "contradiction", says, cure)


def _known(names: Iterator[str], file: str) -> Known:
    return Known(names, f"Use a name of {file}.")
