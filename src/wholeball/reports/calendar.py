"""Lays a timetable out as a calendar: weeks with their nights, starts and fields, and loads."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, time, timedelta
from types import MappingProxyType
from typing import Final, NamedTuple

from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.planning.days import WEEKDAYS, day
from wholeball.planning.problem import Slot
from wholeball.rulebook.sentence import counted

_STAGES: Final = {"league": "", "play_off": "play-off", "decider": "decider"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ended:
    """How a game ended: its goals as they count, who won, and how it was given up.

    `by` is empty for a game that was played, `winner` for one that nobody won. There are no
    goals where both sides gave the game up.
    """

    goals: tuple[int, int] | None
    winner: str = ""
    kicks: tuple[int, int] | None = None
    by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A game as a calendar shows it; a side to come is in words, such as "winner of P1"."""

    game: GameId
    night: date
    start: time
    field: str
    home: str
    away: str
    note: str = ""
    is_to_come: bool = False
    ended: Ended | None = None

    @property
    def when(self) -> str:
        """The night in words."""
        return day(self.night)

    @property
    def at(self) -> str:
        """The start."""
        return f"{self.start:%H:%M}"

    def against(self, team: str) -> str:
        """Return the other side."""
        return self.away if self.home == team else self.home


class Cell(NamedTuple):
    """What is at a start on a field of one night: games, a free slot, or nothing at all."""

    entries: tuple[Entry, ...]
    is_free: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A start on one field, over the nights of a week; `is_first` of the fields of its start."""

    at: str
    field: str
    is_first: bool
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """A week that has a game or a free slot."""

    number: int
    nights: tuple[date, ...]
    rows: tuple[Row, ...]

    @property
    def heads(self) -> tuple[tuple[str, str], ...]:
        """The number and the weekday of each night."""
        return tuple(
            (f"{night.day}", WEEKDAYS[night.weekday()].capitalize()) for night in self.nights
        )

    @property
    def title(self) -> str:
        """The week and its nights in words."""
        first, last = self.nights[0], self.nights[-1]
        span = day(first) if first == last else f"{day(first)} to {day(last)}"
        return f"Week {self.number}, {span}"


class Load(NamedTuple):
    """How many games there are, of how many there could be; None where that is not known."""

    label: str
    games: int
    places: int | None


def entries(
    fixtures: Iterable[Fixture],
    to_come: Iterable[OpenFixture],
    ended: Mapping[GameId, Ended] = MappingProxyType({}),
) -> tuple[Entry, ...]:
    """Return all games of a timetable in the order of time and field, as far as they have ended."""
    both: tuple[Fixture | OpenFixture, ...] = (*fixtures, *to_come)
    found = [
        Entry(
            game=one.game,
            night=one.day,
            start=one.start,
            field=one.field,
            home=f"{one.home}",
            away=f"{one.away}",
            note=_STAGES[one.stage] if isinstance(one, Fixture) else "play-off",
            is_to_come=isinstance(one, OpenFixture),
            ended=ended.get(one.game),
        )
        for one in both
    ]
    return tuple(
        sorted(found, key=lambda one: (one.night, one.start, _in_order(one.field), one.game))
    )


def weeks(
    games: Iterable[Entry], slots: Iterable[Slot] = (), *, first_day: date
) -> tuple[Week, ...]:
    """Return the weeks of a season that have something to show; a week begins on Monday."""
    by_week: dict[int, list[Entry]] = {}
    free: dict[int, list[Slot]] = {}
    for one in games:
        by_week.setdefault(week_of(one.night, first_day), []).append(one)
    for slot in slots:
        free.setdefault(week_of(slot.night, first_day), []).append(slot)
    numbers = sorted(by_week.keys() | free.keys())
    return tuple(_week(one, by_week.get(one, []), free.get(one, [])) for one in numbers)


def week_of(night: date, first_day: date) -> int:
    """Return the week of the season, from 1, that a night is in."""
    monday = first_day - timedelta(days=first_day.weekday())
    return (night - monday).days // 7 + 1


def _week(number: int, games: list[Entry], slots: list[Slot]) -> Week:
    nights = sorted({*(one.night for one in games), *(one.night for one in slots)})
    at: dict[tuple[date, time, str], list[Entry]] = {}
    for one in games:
        at.setdefault((one.night, one.start, one.field), []).append(one)
    there = {(one.night, one.at, one.field) for one in slots}
    lines = sorted(
        {(start, field) for _, start, field in (*at, *there)},
        key=lambda one: (one[0], _in_order(one[1])),
    )
    firsts = dict(reversed(lines))
    return Week(
        number=number,
        nights=tuple(nights),
        rows=tuple(
            Row(
                at=f"{start:%H:%M}",
                field=field,
                is_first=firsts[start] == field,
                cells=tuple(
                    Cell(
                        entries=tuple(at.get((night, start, field), ())),
                        is_free=(night, start, field) in there,
                    )
                    for night in nights
                ),
            )
            for start, field in lines
        ),
    )


def loads(
    games: Iterable[Entry], slots: Iterable[Slot] = (), *, first_day: date
) -> tuple[Load, ...]:
    """Return the games of each week of the season, of its places where those are known."""
    counts = Counter(week_of(one.night, first_day) for one in games)
    places = Counter(week_of(one.night, first_day) for one in slots)
    numbers = counts.keys() | places.keys()
    return tuple(
        Load(
            label=f"Week {number}",
            games=counts[number],
            places=places[number] if places else None,
        )
        for number in range(min(numbers, default=1), max(numbers, default=0) + 1)
    )


def _in_order(field: str) -> tuple[int, str]:
    """Put "Field 2" before "Field 10": shorter names first."""
    return len(field), field


def of_team(games: Iterable[Entry], team: str) -> tuple[Entry, ...]:
    """Return the games that name a team."""
    return tuple(one for one in games if team in (one.home, one.away))


def of_field(games: Iterable[Entry], field: str) -> tuple[Entry, ...]:
    """Return the games on a field."""
    return tuple(one for one in games if one.field == field)


def load_words(found: Iterable[Load]) -> Iterator[str]:
    """Say each load in words, for who does not see its bar."""
    for one in found:
        of = "" if one.places is None else f" of {counted(one.places, 'place')}"
        yield f"{one.label}: {counted(one.games, 'game')}{of}"
