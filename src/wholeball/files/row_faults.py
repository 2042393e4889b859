"""Says what is wrong with a row of a table once each of its cells is read."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Final, NamedTuple

from wholeball.files.table import Line
from wholeball.kernel.faults import MOST_SHOWN, Fault, Level, Place
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.league import League

_YEAR: Final = timedelta(days=365)


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
    """Names that a column may hold; the nearest is looked for once a name, for 100 names."""

    def __init__(self, names: Iterable[str], otherwise: str) -> None:
        """Take the names, and the cure for every wrong name after the hundredth."""
        self._names = dict.fromkeys(names)
        self._otherwise = otherwise
        self._hints: dict[str, str] = {}

    def __contains__(self, name: str) -> bool:
        return name in self._names

    def meant(self, name: str) -> str:
        """Return the cure for a wrong name."""
        if len(self._hints) < MOST_SHOWN:
            self._hints.setdefault(name, did_you_mean(name, self._names))
        return self._hints.get(name, self._otherwise)


def outside_season(league: League, day: date | None) -> Iterator[Wrong]:
    """Find a day outside the season: a doubt, and a fault where it is more than a year away."""
    first, last = league.first_day, league.last_day
    if day is None or first <= day <= last:
        return
    far = first - day > _YEAR or day - last > _YEAR
    says = f"{day} is outside the season, {first} to {last}."
    cure = "Mend the day, or the season's days in season.toml."
    yield Wrong("date", "range", says, cure, "fault" if far else "doubt")
