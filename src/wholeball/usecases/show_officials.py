"""Shows the officials of a season, what each works, and which posts to come nobody fills."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId
from wholeball.league.crew import OnCrew
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.reports.night import night_games
from wholeball.rulebook.sentence import counted
from wholeball.usecases.local_day import local_day


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedGame:
    """A game whose crew names an official.

    `day` is None where no timetable says it. A game that was stopped `is_resumed` on a later day
    has a crew of its own for that day.
    """

    game: GameId
    role: str
    day: date | None
    sides: str
    is_to_come: bool
    is_resumed: bool = False

    @property
    def says(self) -> str:
        """Which game it is, and when."""
        rest = "the rest of " if self.is_resumed else ""
        when = "" if self.day is None else f" on {day_of_season(self.day)}"
        return f"{rest}game {self.game}{when}"

    @property
    def title(self) -> str:
        """The day as people say it."""
        return "" if self.day is None else day_of_season(self.day)


@dataclass(frozen=True, slots=True, kw_only=True)
class OfficialShown:
    """An official, and the games whose crews name them, in the order in which they are played."""

    official: str
    worked: tuple[WorkedGame, ...]

    @property
    def games(self) -> int:
        """How many games it is, each once."""
        return len({one.game for one in self.worked})

    @property
    def to_come(self) -> tuple[WorkedGame, ...]:
        """Those that are still to be played."""
        return tuple(one for one in self.worked if one.is_to_come)

    @property
    def past(self) -> tuple[WorkedGame, ...]:
        """Those that have been played, or whose day has gone by."""
        return tuple(one for one in self.worked if not one.is_to_come)

    @property
    def next(self) -> WorkedGame | None:
        """The next of them, or None."""
        return next(iter(self.to_come), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenNight:
    """A night to come, and how many posts of how many of its games nobody fills."""

    day: date
    posts: int
    games: int

    @property
    def title(self) -> str:
        """The day as people say it."""
        return day_of_season(self.day)

    @property
    def says(self) -> str:
        """How much is missing."""
        return f"{counted(self.posts, 'post')} of {counted(self.games, 'game')}"


@dataclass(frozen=True, slots=True, kw_only=True)
class OfficialsShown:
    """The officials of a season by their names, and the nights that lack some.

    `is_planned` tells whether a timetable has any game to come.
    """

    officials: tuple[OfficialShown, ...]
    nights: tuple[OpenNight, ...]
    is_planned: bool

    @property
    def missing(self) -> int:
        """How many posts to come nobody fills."""
        return sum(one.posts for one in self.nights)


def show_officials(record: LeagueRecord, *, at: datetime) -> OfficialsShown:
    """Return the officials of a season at a moment.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    coming = _coming(read, local_day(read, at))
    names = sorted((one.official for one in read.officials), key=lambda one: one.casefold())
    worked = _worked(read, at)
    return OfficialsShown(
        officials=tuple(
            OfficialShown(official=name, worked=worked.get(name, ())) for name in names
        ),
        nights=tuple(_open(read, coming)),
        is_planned=bool(coming),
    )


def official_of(read: SeasonFolder, official: str, *, at: datetime) -> OfficialShown:
    """Return one official of a season with their games at a moment."""
    return OfficialShown(official=official, worked=_worked(read, at).get(official, ()))


def _worked(read: SeasonFolder, at: datetime) -> dict[str, tuple[WorkedGame, ...]]:
    """Return what each official works, by their names."""
    on = local_day(read, at)
    games = {one.game: one for one in _listed(read)}
    begun = _begun(read)
    found: dict[str, list[tuple[time, WorkedGame]]] = {}
    for crew in read.crews:
        listed = games.get(crew.game)
        start = time.min if listed is None else listed.start
        one = _game(crew, listed, on, begun)
        found.setdefault(crew.official, []).append((start, one))
    return {
        name: tuple(one for _, one in sorted(several, key=_in_order))
        for name, several in found.items()
    }


def _in_order(worked: tuple[time, WorkedGame]) -> tuple[date, time, GameId]:
    """Put games in the order of their days and starts, those without a day first."""
    start, one = worked
    return one.day or date.min, start, one.game


def _game(
    crew: OnCrew, listed: Fixture | OpenFixture | None, on: date, begun: frozenset[GameId]
) -> WorkedGame:
    day = crew.day or (None if listed is None else listed.day)
    is_begun = crew.day is None and crew.game in begun
    return WorkedGame(
        game=crew.game,
        role=crew.role,
        day=day,
        sides="" if listed is None else f"{listed.home} v {listed.away}",
        is_to_come=day is not None and day >= on and not is_begun,
        is_resumed=crew.day is not None,
    )


def _coming(read: SeasonFolder, on: date) -> tuple[Fixture | OpenFixture, ...]:
    """Return the games that are still to be played."""
    begun = _begun(read)
    return tuple(one for one in _listed(read) if one.day >= on and one.game not in begun)


def _open(read: SeasonFolder, coming: Iterable[Fixture | OpenFixture]) -> Iterator[OpenNight]:
    """Yield the nights on which a post of the rulebook's crew is filled by nobody."""
    games = tuple(coming)
    roles = read.season.rulebook.crew.roles
    for day in sorted({one.day for one in games}):
        tonight = of_night(games, day)
        crews = night_games(tonight, read.season.league.teams, read.crews, roles)
        lacking = [sum(not name for _, name in one.crew) for one in crews]
        if any(lacking):
            yield OpenNight(day=day, posts=sum(lacking), games=sum(map(bool, lacking)))


def _listed(read: SeasonFolder) -> tuple[Fixture | OpenFixture, ...]:
    return (*read.timetable, *read.open_fixtures)


def _begun(read: SeasonFolder) -> frozenset[GameId]:
    """Return the games of which something is known."""
    return frozenset(one.fixture.game for one in read.sheets)
