"""Finds the games of a feed, those that left it, and how often news of each went out."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time
from typing import Literal, TypeAlias

from wholeball.files.cells import clock_time, day
from wholeball.files.folder import SeasonFolder
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.league.place import sites_of
from wholeball.store.feeds import Cells, Changed
from wholeball.usecases.tonight import Told, tonight

Kind: TypeAlias = Literal["team", "official", "field"]


@dataclass(frozen=True, slots=True, kw_only=True)
class When:
    """A game as a row of the timetable has it; sides to come are in words."""

    game: GameId
    night: date
    start: time
    field: str
    home: str
    away: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A game of a feed: where it stands, or stood before it left; `role` is an official's.

    `sequence` is 0 until something touches it, and then the larger the later; `at` is when the
    last of it was written, None where nobody knows.
    """

    when: When
    is_off: bool
    sequence: int
    at: datetime | None
    role: str = ""
    resumed: date | None = None


def entries_of(
    read: SeasonFolder, kind: Kind, subject: str, history: Sequence[Changed]
) -> tuple[Entry, ...]:
    """Return the games of a feed by their kick-off, called off where they left it."""
    found = _Found(read, kind, subject, history)
    return tuple(
        sorted(found.entries(), key=lambda one: (one.when.night, one.when.start, one.when.game))
    )


@dataclass(slots=True)
class _Found:
    read: SeasonFolder
    kind: Kind
    subject: str
    history: Sequence[Changed]
    _off: dict[date, Mapping[GameId, Told]] = field(default_factory=dict)
    _of_games: dict[str, dict[int, Changed]] = field(default_factory=dict)
    _of_places: list[tuple[Changed, tuple[Cells, ...]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        for change in self.history:
            if change.name not in ("timetable.csv", "crews.csv"):
                self._of_places.append((change, change.rows()))
                continue
            for cells in change.rows():
                if change.name == "timetable.csv" or self._is_own(cells):
                    self._of_games.setdefault(cells["game"], {})[change.version] = change

    def entries(self) -> Iterator[Entry]:
        now = {one.game: one for one in _listed(self.read)}
        mine = self._mine(now.values())
        for game, role in mine.items():
            yield self._entry(now[game], role=role, is_off=self._is_off(now[game]))
        for game, last in self._once().items():
            if game not in mine:
                yield self._entry(now.get(game, last), role="", is_off=True)
        yield from self._resumed(now)

    def _mine(self, games: Iterable[When]) -> dict[GameId, str]:
        """Return the games of the feed, with the role of an official."""
        if self.kind == "official":
            known = {one.game for one in games}
            crews = (one for one in self.read.crews if one.official == self.subject)
            return {
                one.game: one.role for one in crews if one.day is None and one.game in known
            }
        return {one.game: "" for one in games if self._shows(one)}

    def _shows(self, one: When) -> bool:
        names = (one.field,) if self.kind == "field" else (one.home, one.away)
        return self.subject in names

    def _once(self) -> dict[GameId, When]:
        """Return the games that were in the feed at some time, as they last were in it."""
        rows: dict[GameId, When] = {}
        mine: dict[GameId, When] = {}
        for change in self.history:
            for cells in (*change.gone, *change.came):
                if change.name == "timetable.csv":
                    one = _when(cells)
                    rows[one.game] = one
                    if self.kind != "official" and self._shows(one):
                        mine[one.game] = one
                elif change.name == "crews.csv" and self._is_own(cells):
                    game = GameId(cells["game"])
                    if game in rows:
                        mine[game] = rows[game]
        return {
            game: rows[game] if self.kind == "official" else one for game, one in mine.items()
        }

    def _is_own(self, cells: Cells) -> bool:
        return self.kind == "official" and cells["official"] == self.subject

    def _is_off(self, one: When) -> bool:
        if one.night not in self._off:
            games = tonight(self.read, one.night).games
            self._off[one.night] = {listed.game: told for listed, told in games}
        return self._off[one.night][one.game].word == "off"

    def _entry(self, one: When, *, role: str, is_off: bool) -> Entry:
        touched = self._touching(one)
        first, last = min(touched, default=0), max(touched, default=0)
        return Entry(
            when=one,
            is_off=is_off,
            sequence=last - first,
            at=touched[last].at if touched else None,
            role=role,
        )

    def _touching(self, one: When) -> dict[int, Changed]:
        """Return what touched a game, by the version of the season that it made."""
        places = {
            change.version: change
            for change, rows in self._of_places
            if any(self._covers(cells, one) for cells in rows)
        }
        return {**places, **self._of_games.get(one.game, {})}

    def _covers(self, cells: Cells, one: When) -> bool:
        """Tell whether a row of closures.csv or notices.csv is about the place and the night."""
        site = sites_of(self.read.fields).get(one.field, "")
        first = day(cells["date"])
        last = day(cells["last_date"]) if cells.get("last_date") else first
        return (
            first <= one.night <= last
            and cells["field"] in ("", one.field)
            and cells["site"] in ("", site)
        )

    def _resumed(self, now: Mapping[GameId, When]) -> Iterator[Entry]:
        """Yield the nights on which an official goes on with a game that was stopped."""
        if self.kind != "official":
            return
        for crew in self.read.crews:
            if crew.official == self.subject and crew.day is not None and crew.game in now:
                entry = self._entry(now[crew.game], role=crew.role, is_off=False)
                yield replace(entry, resumed=crew.day)


def _listed(read: SeasonFolder) -> Iterator[When]:
    every: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    for one in every:
        yield When(
            game=one.game,
            night=one.day,
            start=one.start,
            field=one.field,
            home=f"{one.home}",
            away=f"{one.away}",
        )


def _when(cells: Cells) -> When:
    return When(
        game=GameId(cells["game"]),
        night=day(cells["date"]),
        start=clock_time(cells["start"]),
        field=cells["field"],
        home=cells["home"],
        away=cells["away"],
    )
