"""Sets who works the games of a night, and lists the officials of a season."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, time

from wholeball.files.any_cell import neutral
from wholeball.files.crews import COLUMNS as CREW_COLUMNS
from wholeball.files.crews import FILE as CREWS_FILE
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.officials import COLUMNS as OFFICIAL_COLUMNS
from wholeball.files.officials import FILE as OFFICIALS_FILE
from wholeball.files.table import MOST_BYTES, write_table
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId
from wholeball.league.crew import OnCrew
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.usecases.print_scorecards import no_game


@dataclass(frozen=True, slots=True, kw_only=True)
class Post:
    """A role of a game's crew, by its place among them, and who fills it."""

    place: int
    role: str
    official: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewGame:
    """A game of a night and its crew."""

    game: GameId
    start: time
    field: str
    home: str
    away: str
    posts: tuple[Post, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewsShown:
    """The crews of a night, and who there is to fill them."""

    day: date
    games: tuple[CrewGame, ...]
    officials: tuple[str, ...]

    @property
    def title(self) -> str:
        """The day as people say it."""
        return day_of_season(self.day)

    @property
    def missing(self) -> int:
        """How many posts nobody fills."""
        return sum(not post.official for one in self.games for post in one.posts)


def show_crews(record: LeagueRecord, night: date) -> CrewsShown:
    """Return the crews of a night.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: no game is that night.
    """
    read = read_folder(record)
    games = _games(read, record, night)
    roles = read.season.rulebook.crew.roles
    named = {one.official for one in read.officials} | {one.official for one in read.crews}
    return CrewsShown(
        day=night,
        games=tuple(
            CrewGame(
                game=one.game,
                start=one.start,
                field=one.field,
                home=str(one.home),
                away=str(one.away),
                posts=tuple(_posts(roles, read.crews, one.game)),
            )
            for one in games
        ),
        officials=tuple(sorted(named)),
    )


def set_crews(
    record: LeagueRecord, night: date, chosen: Mapping[tuple[GameId, int], str]
) -> None:
    """Write who fills each post of a night; a post that is not named, or by nobody, is open.

    Raises:
        InputFaults: somebody would be at two games at once, or twice at one; nothing was written.
        WholeballError: no game is that night, or it cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        ours = [one.game for one in _games(read, record, night)]
        roles = read.season.rulebook.crew.roles
        kept = [one for one in read.crews if one.day is not None or one.game not in ours]
        new = (
            OnCrew(game=game, role=role, official=official)
            for game in ours
            for place, role in enumerate(roles)
            if (official := chosen.get((game, place), ""))
        )
        data = write_table([one.name for one in CREW_COLUMNS], _rows((*kept, *new)))
        read_folder(record, instead={CREWS_FILE: data})
        record.write({CREWS_FILE: data})


def add_officials(record: LeagueRecord, names: Iterable[str]) -> int:
    """List officials by their names, and return how many are new.

    Raises:
        InputFaults: a name that cannot be one; nothing was written.
    """
    with record.held():
        read = read_folder(record)
        known = {one.official.casefold() for one in read.officials}
        told: dict[str, str] = {}
        for one in names:
            told.setdefault(one.casefold(), one)
        new = [name for key, name in told.items() if key not in known]
        if new:
            held = (
                record.read(OFFICIALS_FILE, MOST_BYTES) if record.has(OFFICIALS_FILE) else b""
            )
            rows = ((neutral(name), "") for name in new)
            data = with_rows(held, rows, columns=OFFICIAL_COLUMNS)
            read_folder(record, instead={OFFICIALS_FILE: data})
            record.write({OFFICIALS_FILE: data})
    return len(new)


def _games(
    read: SeasonFolder, record: LeagueRecord, night: date
) -> tuple[Fixture | OpenFixture, ...]:
    every: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    games = of_night(every, night)
    if not games:
        raise no_game(every, record, night)
    return games


def _posts(roles: Iterable[str], crews: Iterable[OnCrew], game: GameId) -> Iterator[Post]:
    """Yield the posts of a game's first night; of a role that is there twice, one each."""
    left = [one for one in crews if one.game == game and one.day is None]
    for place, role in enumerate(roles):
        found = next((one for one in left if one.role == role), None)
        if found is not None:
            left.remove(found)
        yield Post(place=place, role=role, official="" if found is None else found.official)


def _rows(crews: Iterable[OnCrew]) -> Iterator[tuple[str, ...]]:
    for one in crews:
        day = "" if one.day is None else one.day.isoformat()
        yield one.game, one.role, one.official, day
