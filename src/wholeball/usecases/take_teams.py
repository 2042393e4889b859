"""Takes the teams of a spreadsheet into a season, beside those that it has."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.folder import read_folder
from wholeball.files.more_rows import Cells, with_rows
from wholeball.files.other_cells import with_cells
from wholeball.files.table import MOST_BYTES
from wholeball.files.team_sheet import TeamSheet, read_team_sheet
from wholeball.files.teams import COLUMNS, FILE, read_teams
from wholeball.kernel.faults import InputFaults
from wholeball.league.league import League, Team
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import counted, listed
from wholeball.usecases.arrange_pools import team_cells

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

    `took` says which heading each column was read from, `left` which were passed over.
    """

    new: tuple[Team, ...]
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
        more = f" and {len(self.left) - _MOST} more" if len(self.left) > _MOST else ""
        return f"{counted(len(self.new), 'team')} came in{known}: {read}." + (
            f" Not read: {passed}{more}." if passed else ""
        )


def take_teams(record: LeagueRecord, data: bytes, *, file: str) -> TeamsTaken:
    """Add the teams of a CSV file or an `.xlsx` workbook, all or none; done again, none is new.

    Raises:
        InputFaults: everything that is wrong with the list, by its rows; nothing was written.
        WholeballError: it cannot be kept.
    """
    with record.held():
        league = read_folder(record).season.league
        sheet = read_team_sheet(data, file=file, has_divisions=bool(league.divisions))
        given = _judged(sheet, league, file)
        known = {one.team.casefold() for one in league.teams}
        new = tuple(one for one in given if one.team.casefold() not in known)
        if new:
            held = record.read(FILE, MOST_BYTES) if league.teams else b""
            text = with_rows(held, _neutral(new), columns=COLUMNS)
            read_folder(record, instead={FILE: text})
            record.write({FILE: text})
    return TeamsTaken(new=new, already=len(given) - len(new), took=sheet.took, left=sheet.left)


def _judged(sheet: TeamSheet, league: League, file: str) -> tuple[Team, ...]:
    """Return the teams of a sheet, or every fault of it, named as its reader knows the file."""
    data = with_cells(sheet.data, _called_in(league), columns=COLUMNS)
    teams, table = read_teams(data, league.divisions, league.blocks)
    faults = [one for one in table.faults if one.level == "fault"]
    if faults:
        raise InputFaults(replace(one, place=replace(one.place, file=file)) for one in faults)
    return teams


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
