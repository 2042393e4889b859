"""Lists when teams cannot play, or would rather not, adds such times and takes them out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from typing import Final

from wholeball.files.absences import COLUMNS, FILE, rule_of
from wholeball.files.any_cell import neutral
from wholeball.files.fewer_rows import without_row
from wholeball.files.folder import read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.table import MOST_BYTES, Line, read_table
from wholeball.kernel.faults import WholeballError
from wholeball.league.division import Weekday
from wholeball.league.league import League
from wholeball.league.record import LeagueRecord
from wholeball.planning.kinds import KINDS
from wholeball.planning.rule import Strength

MOST_DAYS: Final = 62
"""Days on end that one absence has at most: each is a row of absences.csv."""
_NAMES: Final = [one.name for one in COLUMNS]
_ONE: Final = timedelta(days=1)
_NIGHT: Final = "date"


@dataclass(frozen=True, slots=True, kw_only=True)
class Absence:
    """When a team does not play, in words; it stands on the rows from `row` to `last_row`.

    `cost` is that of a wish, and 0 of what must hold.
    """

    row: int
    last_row: int
    team: str
    says: str
    strength: Strength
    cost: int
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AbsencesShown:
    """The absences of a season in the order in which they were given, and its teams."""

    rows: tuple[Absence, ...]
    teams: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NewAbsence:
    """When a team does not play: on a weekday, or from a day to another, or on every night.

    With `opens` from that time on, with `closes` until then. `cost` is that of a wish; without
    one it must hold.
    """

    team: str
    weekday: Weekday | None = None
    first: date | None = None
    last: date | None = None
    opens: time | None = None
    closes: time | None = None
    cost: int | None = None
    why: str = ""

    @property
    def nights(self) -> tuple[date, ...]:
        """Every day from the first to the last."""
        if self.first is None:
            return ()
        count = ((self.last or self.first) - self.first).days + 1
        return tuple(self.first + number * _ONE for number in range(count))


def show_absences(record: LeagueRecord) -> AbsencesShown:
    """Return who cannot play when; days on end of one absence stand together.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    teams = tuple(str(one.team) for one in read_folder(record).season.league.teams)
    return AbsencesShown(rows=tuple(map(_absence, _together(_lines(record)))), teams=teams)


def add_absence(record: LeagueRecord, new: NewAbsence) -> None:
    """Keep a team from playing at a time, or have it play then only where nothing else does.

    Raises:
        InputFaults: the season would have a fault; nothing was written.
        WholeballError: a day is none of the season, it stands there already, there are too many
            days, or it cannot be kept.
    """
    with record.held():
        _refuse_days(new, read_folder(record).season.league)
        _refuse_twice(new, _lines(record))
        text = with_rows(_held(record), list(_cells(new)), columns=COLUMNS)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def drop_absence(record: LeagueRecord, row: int, last_row: int) -> None:
    """Let a team play again when it could not: take the rows from one to another out.

    Raises:
        WholeballError: one of them is not there any more; nothing was written.
    """
    if not row <= last_row < row + MOST_DAYS:
        raise WholeballError(
            f"Rows {row} to {last_row} are no absence.",
            fix="Nothing was changed. Look at what is there now.",
            code="gone",
        )
    with record.held():
        text = _held(record)
        for number in range(last_row, row - 1, -1):
            text = without_row(text, number, what="This absence")
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def _refuse_days(new: NewAbsence, league: League) -> None:
    for one in new.nights[:1] + new.nights[-1:]:
        if not league.first_day <= one <= league.last_day:
            raise WholeballError(
                f"{one} is no day of the season.",
                fix=f"Choose one from {league.first_day} to {league.last_day}.",
                code="outside_season",
            )
    if len(new.nights) > MOST_DAYS:
        raise WholeballError(
            f"These are {len(new.nights)} days; at most {MOST_DAYS} are taken at once.",
            fix="Add them in parts, or close the fields then under Days off.",
            code="limits",
        )


def _refuse_twice(new: NewAbsence, lines: Sequence[Line]) -> None:
    wanted = {(new.team, new.weekday, night, new.opens, new.closes) for night in _nights(new)}
    for line in lines:
        if (line.need("team", str), line.get("weekday", str), *_when(line)) in wanted:
            raise WholeballError(
                f"It stands in the list already: {_sentence([line])}",
                fix="Take that out first, to change it.",
                code="duplicate",
            )


def _nights(new: NewAbsence) -> tuple[date | None, ...]:
    """Return the day of each row; one row without a day where none is named."""
    return new.nights or (None,)


def _held(record: LeagueRecord) -> bytes:
    return record.read(FILE, MOST_BYTES) if record.has(FILE) else b""


def _lines(record: LeagueRecord) -> list[Line]:
    data = _held(record)
    return read_table(data, COLUMNS, file=FILE).lines if data.strip() else []


def _cells(new: NewAbsence) -> Iterator[tuple[str, ...]]:
    told = {
        "team": neutral(new.team),
        "weekday": new.weekday or "",
        "from": _clock(new.opens),
        "until": _clock(new.closes),
        "strength": "" if new.cost is None else "wish",
        "cost": "" if new.cost is None else f"{new.cost}",
        "why": neutral(new.why),
    }
    for night in _nights(new):
        row = {**told, _NIGHT: "" if night is None else f"{night}"}
        yield tuple(row.get(name, "") for name in _NAMES)


def _clock(at: time | None) -> str:
    return "" if at is None else f"{at:%H:%M}"


def _together(lines: Sequence[Line]) -> Iterator[list[Line]]:
    """Yield the rows of each absence: days on end on rows on end, all else alike, are one."""
    part: list[Line] = []
    for line in lines:
        if part and not _follows(part[-1], line):
            yield part
            part = []
        part.append(line)
    if part:
        yield part


def _follows(one: Line, other: Line) -> bool:
    before, after = one.get(_NIGHT, date), other.get(_NIGHT, date)
    if before is None or after is None:
        return False
    is_next = after - before == _ONE and other.row - one.row == 1
    return is_next and _beside_night(one) == _beside_night(other)


def _beside_night(line: Line) -> dict[str, object]:
    return {name: line.cells.get(name) for name in _NAMES if name != _NIGHT}


def _when(line: Line) -> tuple[date | None, time | None, time | None]:
    return line.get(_NIGHT, date), line.get("from", time), line.get("until", time)


def _absence(lines: Sequence[Line]) -> Absence:
    rule = rule_of(lines[0])
    return Absence(
        row=lines[0].row,
        last_row=lines[-1].row,
        team=str(rule.teams[0]),
        says=_sentence(lines),
        strength=rule.strength,
        cost=rule.cost,
        why=rule.why,
    )


def _sentence(lines: Sequence[Line]) -> str:
    rule = rule_of(lines[0])
    nights = tuple(f"{night}" for one in lines if (night := one.get(_NIGHT, date)) is not None)
    params = {**rule.params, "nights": nights} if nights else rule.params
    return KINDS[rule.kind].sentence(replace(rule, params=params))
