"""Reads a list of the players of a whole league: one row a player, with the team."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, TypeAlias

from wholeball.files.given_rows import given_rows
from wholeball.files.headings import by_heading, columns_in, in_words
from wholeball.files.roster_import import COLUMNS, Entries, Entry, entries_of
from wholeball.files.table import Rows
from wholeball.files.team_sheet import column_of
from wholeball.files.xlsx import Kind, SheetRows
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.identity import TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import toml_text

TEAM: Final = "team"
HEADINGS: Final = by_heading(
    {
        "student_id": "student id,student number,student no,id,university id,campus id",
        "name": "name,player,player name,full name,student name",
        "number": "number,shirt number,jersey number,shirt,jersey,no",
        "captain": "captain,is captain",
    }
)
"""What people call the columns of a list: common practice, no source."""
_Row: TypeAlias = tuple[int, tuple[str, ...]]
_ORDER: Final = tuple(one.name for one in COLUMNS)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeagueList:
    """The players of each team in the order of the list; `left` are headings passed over.

    `faults` are those of rows that name no team, and of ids that rows of two teams share.
    """

    file: str
    faults: tuple[Fault, ...]
    teams: Mapping[TeamId, Entries]
    left: tuple[str, ...]


def read_league_list(data: bytes, *, file: str, teams: Sequence[TeamId]) -> LeagueList:
    """Return the players of a CSV file or a workbook, by the teams that a season has.

    Raises:
        InputFaults: the file as a whole cannot be read, or lacks a column.
    """
    rows, sheet = given_rows(data, file=file)
    if not rows.rows:
        raise InputFaults(
            [_fault(file, None, "empty", "the file is empty.", "It starts with the headings.")]
        )
    number, names = rows.rows[0]
    columns = _columns(file, number, names)
    header = tuple(name for name in _ORDER if name in columns)

    def entries(part: list[_Row]) -> Entries:
        own = replace(rows, rows=[(number, header), *part])
        return entries_of(own, _kinds(sheet, own, header, columns))

    parts, lost, faults = _parted(rows, columns, teams)
    found = {team: entries(part) for team, part in parts.items()}
    every = [*found.values(), *([entries(lost)] if lost else ())]
    faults += every[-1].faults if lost else ()
    faults += _shared(file, [one for each in every for one in each.entries])
    used = set(columns.values())
    left = (name.strip() for at, name in enumerate(names) if at not in used)
    return LeagueList(
        file=file, faults=tuple(faults), teams=found, left=tuple(filter(None, left))
    )


def _columns(file: str, row: int, names: Sequence[str]) -> dict[str, int]:
    """Return where each column stands; what else the list has is passed over."""
    found, faults = columns_in(names, _column, file=file, row=row)
    for needed in (TEAM, "student_id", "name"):
        if needed not in found:
            says = f"column {needed} is missing."
            cure = "The columns are team, student_id, name, and number and captain if you have them."
            faults.append(_fault(file, row, "missing_column", says, cure))
    if faults:
        raise InputFaults(faults)
    return found


def _column(heading: str) -> str | None:
    return HEADINGS.get(in_words(heading)) or (TEAM if column_of(heading) == TEAM else None)


def _parted(
    rows: Rows, columns: Mapping[str, int], teams: Sequence[TeamId]
) -> tuple[dict[TeamId, list[_Row]], list[_Row], list[Fault]]:
    """Return the rows of each team, and those that name none with what is wrong with that."""
    known = {one.casefold(): one for one in teams}
    parts: dict[TeamId, list[_Row]] = {}
    lost: list[_Row] = []
    faults: list[Fault] = []
    order = [columns[name] for name in _ORDER if name in columns]
    for number, cells in rows.rows[1:]:
        own = tuple(_cell(cells, at) for at in order)
        name = _cell(cells, columns[TEAM]).strip()
        team = known.get(name.casefold())
        if team is not None:
            parts.setdefault(team, []).append((number, own))
            continue
        lost.append((number, own))
        says = f"the season has no team {name[:80]!r}." if name else "the row names no team."
        cure = did_you_mean(name, [str(one) for one in teams]) if name else "Fill it in."
        faults.append(_fault(rows.file, number, "unknown_team", says, cure, TEAM))
    return parts, lost, faults


def _shared(file: str, entries: list[Entry]) -> Iterator[Fault]:
    """Yield each row whose id stands on an earlier row of another team, with another name."""
    first: dict[str, Entry] = {}
    for entry in sorted(entries):
        earlier = first.setdefault(entry.student, entry)
        if earlier.name.casefold() != entry.name.casefold():
            says = f"{toml_text(entry.name)} has the id of {toml_text(earlier.name)} on row "
            says += f"{earlier.row}."
            cure = "Nothing is taken of either; mend the id of one of them."
            yield _fault(file, entry.row, "duplicate", says, cure, "student_id")


def _cell(cells: Sequence[str], at: int) -> str:
    return cells[at] if at < len(cells) else ""


def _kinds(
    sheet: SheetRows | None, own: Rows, header: Sequence[str], columns: Mapping[str, int]
) -> SheetRows | None:
    """Return what the cells of a team's rows are, where they stand now."""
    if sheet is None:
        return None
    return replace(sheet, rows=own, kinds=dict(_moved(sheet, own, header, columns)))


def _moved(
    sheet: SheetRows, own: Rows, header: Sequence[str], columns: Mapping[str, int]
) -> Iterator[tuple[tuple[int, int], Kind]]:
    for number, _ in own.rows:
        for at, name in enumerate(header):
            kind = sheet.kinds.get((number, columns[name]))
            if kind is not None:
                yield (number, at), kind


def _fault(
    file: str, row: int | None, code: str, says: str, cure: str, column: str | None = None
) -> Fault:
    return Fault(
        code=code, place=Place(file=file, row=row, column=column), says=says, cure=cure
    )
