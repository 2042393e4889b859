"""Reads a spreadsheet of teams as people keep them: a title above, columns of other names."""

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.files.archive import is_archive
from wholeball.files.given_rows import given_rows
from wholeball.files.headings import SHOWN, by_heading, columns_in, in_words
from wholeball.files.table import Rows
from wholeball.files.teams import COLUMNS
from wholeball.kernel.faults import Fault, InputFaults, Place

LOOKED_AT: Final = 30
"""Rows among which the one with the headings is looked for."""
MOST_TEAMS: Final = 5_000
"""Five times what a large campus has; whoever sends more has taken another list."""
HEADINGS: Final = by_heading(
    {
        "team": "team,teams,team name,name of team,name of the team,team title,squad,side",
        "pool": "pool,pools,group",
        "colours": "colours,colour,colors,color,team colour,team colours,team color,team colors,"
        "shirt,shirts,shirt colour,shirt color,jersey,jersey colour,jersey color,kit,kit colour",
        "second_colours": "second colours,second colour,second colors,second color,"
        "other colours,other colour,away colours,away colour,alternate colour,alternate color",
        "division": "division,divisions,division name,name of the division",
        "block": "block,blocks,block name,name of the block",
    }
)
"""What people call the columns of teams.csv: common practice, no source."""
OF_CAPTAINS: Final = by_heading(
    {
        "name": "captain,captain name,captains name,captain s name,name of captain,team captain",
        "email": "captain email,captain e mail,captains email,captain s email,captain s e mail,"
        "captain mail,captain address,email of captain,email,e mail,email address",
    }
)
"""What people call what they say of a captain; no file of the season has the address."""
_ORDER: Final = tuple(column.name for column in COLUMNS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Captain:
    """Who leads a team, as a spreadsheet says it, and where a link reaches that person."""

    team: str
    name: str
    email: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamSheet:
    """The rows of a spreadsheet as teams.csv has them, each on the row where it stood.

    `took` says which heading each column is read from, `left` which headings were passed over.
    `captains` are those with an address.
    """

    data: bytes
    teams: int
    took: Mapping[str, str]
    left: tuple[str, ...]
    captains: tuple[Captain, ...] = ()


def read_team_sheet(data: bytes, *, file: str, has_blocks: bool) -> TeamSheet:
    """Return the teams of a CSV file or a workbook.

    The headings may stand below a title, and have any of the names that people give them. Other
    columns are passed over, and named; so are blocks in a season that has none.

    Raises:
        InputFaults: the file cannot be read, no column holds the teams, two of them do, or there
            are more than `MOST_TEAMS`.
    """
    rows = given_rows(_untitled(data), file=file).rows
    if not rows.rows:
        raise _whole(file, None, "empty", "the file is empty.", _CURE)
    at = _heading_row(rows)
    number, names = rows.rows[at]
    columns, twice = columns_in(names, column_of, file=file, row=number)
    if twice:
        raise InputFaults(twice)
    if not has_blocks:
        columns.pop("block", None)
    if "team" not in columns:
        said = ", ".join(f"“{name[:SHOWN]}”" for name in names if name.strip())
        raise _whole(
            file, number, "missing_column", f"no column holds the teams: {said}.", _CURE
        )
    listed = list(_listed(rows, at, columns))
    teams = sum(bool(cells[0].strip()) for cells in listed)
    if teams > MOST_TEAMS:
        says = f"{teams:,} teams are listed."
        raise _whole(file, None, "limits", says, f"List at most {MOST_TEAMS:,}.")
    led = _led(names)
    header = [name for name in _ORDER if name in columns]
    return TeamSheet(
        data=_text([*([[]] * (number - 1)), header, *listed]),
        teams=teams,
        took={name: names[columns[name]].strip() for name in header},
        left=tuple(
            name.strip()
            for index, name in enumerate(names)
            if name.strip() and index not in {*columns.values(), *led.values()}
        ),
        captains=tuple(_captains(rows, at, columns["team"], led)),
    )


_CURE: Final = "Call the column with the names of the teams “team”."


def column_of(heading: str) -> str | None:
    """Return the column of teams.csv that a heading means."""
    return HEADINGS.get(in_words(heading))


def _led(names: Sequence[str]) -> dict[str, int]:
    """Return where a captain's name and address stand: the first column of each."""
    found: dict[str, int] = {}
    for at, heading in enumerate(names):
        column = OF_CAPTAINS.get(in_words(heading))
        if column is not None:
            found.setdefault(column, at)
    return found if "email" in found else {}


def _captains(rows: Rows, at: int, team: int, led: Mapping[str, int]) -> Iterator[Captain]:
    """Yield the captains whose rows have an address."""
    for _, cells in rows.rows[at + 1 :]:

        def cell(column: int | None, cells: Sequence[str] = cells) -> str:
            return "" if column is None or column >= len(cells) else cells[column].strip()

        email = cell(led.get("email"))
        if cell(team) and email:
            yield Captain(team=cell(team), name=cell(led.get("name")), email=email)


def _untitled(data: bytes) -> bytes:
    """Return a CSV file with empty lines for those above its headings: its signs part the cells."""
    if is_archive(data):
        return data
    lines = data.split(b"\n")
    for at, line in enumerate(lines[:LOOKED_AT]):
        text = line.decode(errors="replace").removeprefix("\ufeff")
        if "team" in (column_of(cell) for cell in re.split("[,;]", text)):
            return b"\n" * at + b"\n".join(lines[at:])
    return data


def _heading_row(rows: Rows) -> int:
    """Return which row has the headings: the first that names the teams, else the first."""
    for at, (_, cells) in enumerate(rows.rows[:LOOKED_AT]):
        if "team" in map(column_of, cells):
            return at
    return 0


def _listed(rows: Rows, at: int, columns: Mapping[str, int]) -> Iterator[list[str]]:
    """Yield the cells of each row below the headings, and an empty row where one is between."""
    before = rows.rows[at][0]
    order = [columns[name] for name in _ORDER if name in columns]
    for number, cells in rows.rows[at + 1 :]:
        yield from ([""] * len(order) for _ in range(number - before - 1))
        yield [cells[index] if index < len(cells) else "" for index in order]
        before = number


def _text(rows: Sequence[Sequence[str]]) -> bytes:
    """Return rows as a CSV file, each cell as it was given: what is no fit cell stays one."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    return out.getvalue().encode()


def _whole(file: str, row: int | None, code: str, says: str, cure: str) -> InputFaults:
    return InputFaults(
        [Fault(code=code, place=Place(file=file, row=row), says=says, cure=cure)]
    )
