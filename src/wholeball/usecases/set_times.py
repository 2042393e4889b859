"""Sets the days, fields and times of a season, and how much each team plays."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.fewer_rows import without_row
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.planning import league_minutes, play_off_minutes
from wholeball.files.planning_edit import with_amount
from wholeball.files.planning_toml import FILE as PLANNING_FILE
from wholeball.files.problem import free_slots, problem_of
from wholeball.files.season_edit import with_days
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.files.slots import COLUMNS, FILE
from wholeball.files.table import MOST_BYTES, Line, read_table
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.league.place import sites_of
from wholeball.league.record import LeagueRecord
from wholeball.planning.counting import quick_reasons
from wholeball.planning.days import day
from wholeball.usecases.listed_fields import with_listed, without_idle

_NAMES: Final = [one.name for one in COLUMNS]
_ENDS: Final = ("until", "lights_off", "permit_until")


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeRow:
    """A time at which a field is ours, with its starts; `row` is where it stands in slots.csv."""

    row: int
    field: str
    says: str
    starts: tuple[time, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """How many games want a place, how many places there are, and why that cannot do.

    `games` is None where they cannot be counted out.
    """

    games: int | None
    places: int
    nights: int
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TimesShown:
    """The times of a season, and how much each team plays; `room` is None without any time.

    `loose` are the fields of these times that belong to no site. `play_off_minutes` is None where
    no play-offs are planned.
    """

    rows: tuple[TimeRow, ...]
    minutes: int
    games_each: int | None
    meetings: int
    first_day: date
    last_day: date
    room: Room | None
    loose: tuple[str, ...] = ()
    play_off_minutes: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NewTime:
    """The fields that are ours on a weekday from a time until another, on all such days.

    `minutes` lie between two starts; without them as many as a game takes with its turnover.
    """

    fields: tuple[str, ...]
    weekday: str
    opens: time
    closes: time
    first: date | None = None
    last: date | None = None
    minutes: int | None = None


def show_times(record: LeagueRecord) -> TimesShown:
    """Return when and where a season may be played.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    said = read.planning.said
    league = read.season.league
    minutes = league_minutes(read.season.rulebook, said)
    rows = tuple(_row(one, minutes) for one in _lines(record))
    at_a_site = sites_of(read.fields)
    return TimesShown(
        rows=rows,
        minutes=minutes,
        games_each=None if said is None else said.entry.games_each,
        meetings=1 if said is None else said.entry.meetings,
        first_day=league.first_day,
        last_day=league.last_day,
        room=_room(read),
        loose=tuple(dict.fromkeys(one.field for one in rows if one.field not in at_a_site)),
        play_off_minutes=play_off_minutes(read.season.rulebook, said)
        if said is not None and said.play_offs
        else None,
    )


def add_times(record: LeagueRecord, new: NewTime) -> None:
    """Add a time on each of some fields; the season has planning.toml then.

    Where fields are listed, a new one joins the list; it is at no site yet.

    Raises:
        InputFaults: a game does not fit in, two times overlap, or a field differs from a listed
            one by its capitals alone; nothing was written.
        WholeballError: it cannot be kept.
    """
    with record.held():
        text = with_rows(_held(record, FILE), _cells(new), columns=COLUMNS)
        changed = {FILE: text, **with_listed(record, new.fields)}
        if not record.has(PLANNING_FILE):
            changed[PLANNING_FILE] = with_amount(b"", games_each=None, meetings=1)
        read_folder(record, instead=changed)
        record.write(changed)


def drop_time(record: LeagueRecord, row: int) -> None:
    """Take a time out of a season, and its field out of the list once nothing names it.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: there is none on that row any more.
    """
    with record.held():
        field = next((one.need("field", str) for one in _lines(record) if one.row == row), "")
        changed = {FILE: without_row(_held(record, FILE), row, what="This time")}
        record.write({**changed, **without_idle(record, field, changed)})


def set_amount(record: LeagueRecord, *, games_each: int | None, meetings: int) -> None:
    """Set how much each team plays: so many games, or so many meetings of all of a pool.

    Raises:
        InputFaults: the season would have a fault; nothing was written.
        WholeballError: the file cannot be changed so.
    """
    with record.held():
        held = _held(record, PLANNING_FILE)
        text = with_amount(held, games_each=games_each, meetings=meetings)
        read_folder(record, instead={PLANNING_FILE: text})
        record.write({PLANNING_FILE: text})


def set_days(record: LeagueRecord, *, first: date, last: date) -> None:
    """Set the first and the last day of the season.

    Raises:
        InputFaults: something of the season is on a day that would be outside; nothing was
            written.
        WholeballError: the file cannot be changed so.
    """
    with record.held():
        text = with_days(_held(record, SEASON_FILE), first=first, last=last)
        read_folder(record, instead={SEASON_FILE: text})
        record.write({SEASON_FILE: text})


def _held(record: LeagueRecord, name: str) -> bytes:
    return record.read(name, MOST_BYTES) if record.has(name) else b""


def _lines(record: LeagueRecord) -> list[Line]:
    data = _held(record, FILE)
    return read_table(data, COLUMNS, file=FILE).lines if data.strip() else []


def _cells(new: NewTime) -> Iterable[tuple[str, ...]]:
    told = {
        "weekday": new.weekday,
        "first_date": "" if new.first is None else f"{new.first}",
        "last_date": "" if new.last is None else f"{new.last}",
        "from": f"{new.opens:%H:%M}",
        "until": f"{new.closes:%H:%M}",
        "minutes": "" if new.minutes is None else f"{new.minutes}",
    }
    for field in new.fields:
        row = {**told, "field": neutral(field)}
        yield tuple(row.get(name, "") for name in _NAMES)


def _row(line: Line, minutes: int) -> TimeRow:
    weekday, one = line.get("weekday", str), line.get("date", date)
    when = day(one) if one is not None else f"every {(weekday or '').capitalize()}"
    closes = min(end for name in _ENDS if (end := line.get(name, time)) is not None)
    first, last = line.get("first_date", date), line.get("last_date", date)
    between = "".join(
        f", {word} {day(at)}" for word, at in (("from", first), ("to", last)) if at is not None
    )
    return TimeRow(
        row=line.row,
        field=line.need("field", str),
        starts=_starts(line.need("from", time), closes, line.get("minutes", int) or minutes),
        says=f"{when}, {line.need('from', time):%H:%M} to {closes:%H:%M}{between}",
    )


def _starts(opens: time, closes: time, minutes: int) -> tuple[time, ...]:
    """Return when games may start, so that each has ended by the close."""
    first, last = (at.hour * 60 + at.minute for at in (opens, closes))
    every = range(first, last - minutes + 1, minutes)
    return tuple(time(at // 60, at % 60) for at in every)


def _room(read: SeasonFolder) -> Room | None:
    if read.planning.said is None or not read.planning.slots:
        return None
    try:
        problem = problem_of(read, as_planned=True)
    except WholeballError as refused:
        places = free_slots(read)
        nights = {slot.night for slot in places}
        faults = refused.faults if isinstance(refused, InputFaults) else (refused,)
        reasons = tuple(one.says for one in faults)
        return Room(games=None, places=len(places), nights=len(nights), reasons=reasons)
    free = [slot for slot in problem.slots if slot.night not in problem.spare]
    return Room(
        games=len(problem.pairings),
        places=len(free),
        nights=len({slot.night for slot in free}),
        reasons=tuple(one.says for one in quick_reasons(problem)),
    )
