"""Reads bracket.csv: one row a seed with its team, the draw as it was made."""

from collections.abc import Iterator, Mapping
from typing import Final, TypeAlias

from wholeball.files.cells import Column, one_line, whole
from wholeball.files.row_faults import Known, Once, Wrong, row_fault, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import TeamId

FILE: Final = "bracket.csv"
COLUMNS: Final = (
    Column(name="seed", read=whole(1, 256)),
    Column(name="team", read=one_line),
    Column(name="bracket", read=one_line, needed=False),
)
"""The columns of bracket.csv; docs/reference/season-folder.md says what each means."""

Brackets: TypeAlias = Mapping[str, tuple[TeamId, ...]]
"""The teams of each bracket by their seeds; a season with one bracket calls it ""."""


def read_brackets(data: bytes, teams: Known | None) -> tuple[Brackets, Table]:
    """Return the teams of each bracket, best seed first, and every fault of the file.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    seeds, names = Once(), Once()

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from seeds.twice(line, "seed", (_bracket(line), line.need("seed", int)))
        yield from names.twice(line, "team", line.need("team", str))
        yield from unknown(line, "team", teams, "team of teams.csv")

    sides = taken(table, wrong, lambda line: (_bracket(line), line.need("seed", int), line))
    table.faults.extend(row_fault(FILE, line, one) for line, one in _gaps(table.lines))
    brackets: dict[str, list[TeamId]] = {}
    for bracket, _, line in sorted(sides, key=lambda side: side[1]):
        brackets.setdefault(bracket, []).append(TeamId(line.need("team", str)))
    return {name: tuple(found) for name, found in brackets.items()}, table


def _bracket(line: Line) -> str:
    return line.get("bracket", str) or ""


def _gaps(lines: list[Line]) -> Iterator[tuple[Line, Wrong]]:
    """Find a seed before which another is missing."""
    given = {(_bracket(line), line.need("seed", int)) for line in lines}
    for line in lines:
        bracket, seed = _bracket(line), line.need("seed", int)
        if seed > 1 and (bracket, seed - 1) not in given:
            says = f"seed {seed} is given, and seed {seed - 1} is not."
            yield line, Wrong("seed", "missing", says, "Seeds count from 1 without a gap.")
