"""Takes the teams of a spreadsheet into a season, beside those that it has."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.divisions import COLUMNS as DIVISION_COLUMNS
from wholeball.files.divisions import FILE as DIVISIONS_FILE
from wholeball.files.folder import read_folder
from wholeball.files.more_rows import Cells, with_rows
from wholeball.files.other_cells import with_cells
from wholeball.files.table import MOST_BYTES, read_table
from wholeball.files.team_sheet import Captain, TeamSheet, read_team_sheet
from wholeball.files.teams import COLUMNS, FILE, read_teams
from wholeball.kernel.faults import InputFaults
from wholeball.kernel.identity import DivisionId
from wholeball.league.division import Division
from wholeball.league.league import League, Team
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import counted, listed
from wholeball.usecases.arrange_pools import team_cells
from wholeball.usecases.named_rows import named, text_of

_MOST: Final = 12
"""Headings of columns that were passed over, named at most."""
_SHOWN: Final = 40
_WORDS: Final = {
    "team": "teams",
    "pool": "pools",
    "colours": "colours",
    "second_colours": "second colours",
    "division": "divisions",
    "block": "blocks",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamsTaken:
    """The teams that came in, and those that stood there already.

    `took` says which heading each column was read from, `left` which were passed over;
    `divisions` are those that are new with them, `captains` whom an address was read for: it
    is kept nowhere.
    """

    new: tuple[Team, ...]
    divisions: tuple[Division, ...]
    captains: tuple[Captain, ...]
    already: int
    took: Mapping[str, str]
    left: tuple[str, ...]

    @property
    def says(self) -> str:
        """Say how many came in, and how the columns were read."""
        known = f"; {self.already} stood there already" if self.already else ""
        read = listed(
            tuple(f"{_WORDS[name]} from “{told}”" for name, told in self.took.items())
        )
        passed = ", ".join(f"“{name[:_SHOWN]}”" for name in self.left[:_MOST])
        names = listed(tuple(one.division for one in self.divisions))
        many = counted(len(self.divisions), "new division")
        begun = f" {many}: {names}." if self.divisions else ""
        many = counted(len(self.captains), "address of captains", "addresses of captains")
        led = f" {many}: People and roles, Invite the captains." if self.captains else ""
        more = f" and {len(self.left) - _MOST} more" if len(self.left) > _MOST else ""
        return f"{counted(len(self.new), 'team')} came in{known}: {read}.{begun}{led}" + (
            f" Not read: {passed}{more}." if passed else ""
        )


def take_teams(record: LeagueRecord, data: bytes, *, file: str) -> TeamsTaken:
    """Add the teams of a CSV file or an `.xlsx` workbook, all or none; done again, none is new.

    In a season without divisions those that the list names are added with their teams.

    Raises:
        InputFaults: everything that is wrong with the list, by its rows; nothing was written.
        WholeballError: it cannot be kept.
    """
    with record.held():
        league = read_folder(record).season.league
        sheet = read_team_sheet(data, file=file, has_blocks=bool(league.blocks))
        spelt = () if league.divisions else _divisions(sheet, league)
        given = _judged(sheet, replace(league, divisions=league.divisions or spelt), file)
        known = {one.team.casefold() for one in league.teams}
        new = tuple(one for one in given if one.team.casefold() not in known)
        begun = tuple(one for one in spelt if one.division in {team.division for team in new})
        if new:
            held = record.read(FILE, MOST_BYTES) if league.teams else b""
            changed = {FILE: with_rows(held, _neutral(new), columns=COLUMNS)}
            if begun:
                rows = [(neutral(one.division), "", "", "") for one in begun]
                changed[DIVISIONS_FILE] = with_rows(
                    text_of(record, DIVISIONS_FILE), rows, columns=DIVISION_COLUMNS
                )
            read_folder(record, instead=changed)
            record.write(changed)
    spelt_so = {one.team.casefold(): one.team for one in (*given, *league.teams)}
    return TeamsTaken(
        new=new,
        divisions=begun,
        captains=tuple(
            replace(one, team=spelt_so[one.team.casefold()])
            for one in sheet.captains
            if one.team.casefold() in spelt_so
        ),
        already=len(given) - len(new),
        took=sheet.took,
        left=sheet.left,
    )


def _divisions(sheet: TeamSheet, league: League) -> tuple[Division, ...]:
    """Return the divisions that a sheet names, each as it is first spelt."""
    lines = read_table(sheet.data, COLUMNS, file=FILE).lines
    names = (name for line in lines if (name := line.get("division", str)))
    found: dict[str, str] = {}
    for name in names:
        found.setdefault(name.casefold(), name)
    return tuple(
        Division(division=DivisionId(name), league=league.name) for name in found.values()
    )


def _judged(sheet: TeamSheet, league: League, file: str) -> tuple[Team, ...]:
    """Return the teams of a sheet, or every fault of it, named as its reader knows the file."""
    data = with_cells(sheet.data, _called_in(league), columns=COLUMNS)
    data = with_cells(data, _apart(data), columns=COLUMNS)
    teams, table = read_teams(data, league.divisions, league.blocks)
    faults = [one for one in table.faults if one.level == "fault"]
    if faults:
        raise InputFaults(replace(one, place=replace(one.place, file=file)) for one in faults)
    return teams


def _apart(data: bytes) -> Callable[[Mapping[str, str]], Mapping[str, str]]:
    """Return what calls a pool by its division too, where teams of two divisions name it."""
    found: dict[str, set[str]] = {}
    for line in read_table(data, COLUMNS, file=FILE).lines:
        pool, division = line.get("pool", str), line.get("division", str)
        if pool is not None and division is not None:
            found.setdefault(pool, set()).add(division)

    def called(row: Mapping[str, str]) -> dict[str, str]:
        pool, division = named(row, "pool"), named(row, "division")
        is_shared = bool(division) and len(found.get(pool, ())) > 1
        return {"pool": f"{division} {pool}"} if is_shared else {}

    return called


def _called_in(league: League) -> Callable[[Mapping[str, str]], Mapping[str, str]]:
    """Return what calls divisions and blocks as the season does, whatever their capitals."""
    names = {
        "division": {one.division.casefold(): str(one.division) for one in league.divisions},
        "block": {one.block.casefold(): str(one.block) for one in league.blocks},
    }

    def called(row: Mapping[str, str]) -> dict[str, str]:
        return {
            column: known[row[column].casefold()]
            for column, known in names.items()
            if row.get(column, "").casefold() in known
        }

    return called


def _neutral(teams: tuple[Team, ...]) -> Iterator[Cells]:
    """Yield the rows of teams.csv, in the order of its columns."""
    for cells in team_cells(teams):
        yield tuple(map(neutral, cells))
