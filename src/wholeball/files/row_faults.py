"""Says what is wrong with a row of a table once each of its cells is read."""

from collections.abc import Callable, Hashable, Iterable, Iterator
from datetime import date, timedelta
from typing import Final, NamedTuple, TypeVar

from wholeball.files.table import Line, Table
from wholeball.kernel.faults import MOST_SHOWN, Fault, Level, Place
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import League

_YEAR: Final = timedelta(days=365)
_T = TypeVar("_T")


class Wrong(NamedTuple):
    """One thing wrong with a cell of a row."""

    column: str
    code: str
    says: str
    cure: str
    level: Level = "fault"


def row_fault(file: str, line: Line, wrong: Wrong) -> Fault:
    """Return what is wrong with its place, and the value of the cell where it has one."""
    cell = line.cells.get(wrong.column)
    return Fault(
        code=wrong.code,
        place=Place(file=file, row=line.row, column=wrong.column),
        says=wrong.says,
        value=None if cell is None else str(cell),
        cure=wrong.cure,
        level=wrong.level,
    )


class Known:
    """Names that a column may hold; the nearest is looked for once a name, for `most` names."""

    def __init__(self, names: Iterable[str], otherwise: str, *, most: int = MOST_SHOWN) -> None:
        """Take the names, and the cure for every wrong name after the first `most`."""
        self._names = dict.fromkeys(names)
        self._otherwise = otherwise
        self._most = most
        self._hints: dict[str, str] = {}

    def __contains__(self, name: str) -> bool:
        return name in self._names

    def meant(self, name: str) -> str:
        """Return the cure for a wrong name."""
        if len(self._hints) < self._most:
            self._hints.setdefault(name, self.hint(name))
        return self._hints.get(name, self._otherwise)

    def hint(self, name: str) -> str:
        """Return the cure for a name that is looked for."""
        return did_you_mean(name, self._names)


def known_teams(league: League) -> Known:
    """Return the names of a league's teams, as other files may use them."""
    return Known((one.team for one in league.teams), "Use a name of teams.csv.")


class Once:
    """Finds what stands on an earlier row already."""

    def __init__(self) -> None:
        self._rows: dict[Hashable, int] = {}

    def earlier(self, line: Line, key: Hashable) -> int | None:
        """Return the row that has the key already, or None and keep the key for this row."""
        first = self._rows.setdefault(key, line.row)
        return None if first == line.row else first

    def twice(self, line: Line, column: str, key: Hashable) -> Iterator[Wrong]:
        """Find a row that an earlier one makes needless; the column shows what is the same."""
        first = self.earlier(line, key)
        if first is not None:
            says = f"{toml_text(str(line.cells[column]))} stands on row {first} too."
            yield Wrong(column, "duplicate", says, "Take one out.")


def unknown(
    line: Line, column: str, known: Known | None, what: str, *, level: Level = "fault"
) -> Iterator[Wrong]:
    """Find a name that another file lacks; None stands for a file that cannot be read.

    `what` says of what the name should be, such as "team of teams.csv".
    """
    name = line.get(column, str)
    if name is not None and known is not None and name not in known:
        code = f"unknown_{what.split(' ', 1)[0]}"
        says = f"{toml_text(name)} is no {what}."
        yield Wrong(column, code, says, known.meant(name), level)


def taken(
    table: Table, judge: Callable[[Line], Iterable[Wrong]], make: Callable[[Line], _T]
) -> tuple[_T, ...]:
    """Return the values of the rows in which there is no fault; the table gets what is wrong."""
    values = []
    for line in table.lines:
        faults = [row_fault(table.file, line, wrong) for wrong in judge(line)]
        table.faults.extend(faults)
        if all(fault.level != "fault" for fault in faults):
            values.append(make(line))
    return tuple(values)


def outside_season(league: League, day: date | None) -> Iterator[Wrong]:
    """Find a day outside the season: a doubt, and a fault where it is more than a year away."""
    first, last = league.first_day, league.last_day
    if day is None or first <= day <= last:
        return
    far = first - day > _YEAR or day - last > _YEAR
    says = f"{day} is outside the season, {first} to {last}."
    cure = "Mend the day, or the season's days in season.toml."
    yield Wrong("date", "range", says, cure, "fault" if far else "doubt")


def wrong_place(line: Line, fields: Known | None, sites: Known | None) -> Iterator[Wrong]:
    """Find an unknown field or site, and a row that names both."""
    yield from unknown(line, "field", fields, "field of fields.csv")
    yield from unknown(line, "site", sites, "site of sites.csv")
    if line.get("field", str) and line.get("site", str):
        cure = "Name the field, or the site: a field has one."
        yield Wrong("site", "contradiction", "a field and a site are named.", cure)
