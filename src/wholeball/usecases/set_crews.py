"""Sets who works the games of a night, and lists the officials of a season."""

from collections import Counter
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
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.identity import GameId
from wholeball.league.crew import OnCrew
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import listed
from wholeball.usecases.later_nights import LaterNight, on_night
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
class LaterCrew:
    """A game that was stopped and goes on on a night, with its crew of that night.

    Nobody keeps when and where it goes on. `before` is its night before that one; none `is_named`
    while no crew is.
    """

    game: GameId
    home: str
    away: str
    before: str
    is_named: bool
    posts: tuple[Post, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewsShown:
    """The crews of a night, those of games that go on on it, and who there is to fill them."""

    day: date
    games: tuple[CrewGame, ...]
    later: tuple[LaterCrew, ...]
    officials: tuple[str, ...]

    @property
    def title(self) -> str:
        """The day as people say it."""
        return day_of_season(self.day)

    @property
    def is_night(self) -> bool:
        """Whether anything is played, as far as is known."""
        return bool(self.games) or any(one.is_named for one in self.later)

    @property
    def missing(self) -> int:
        """How many posts nobody fills."""
        named = (one.posts for one in self.later if one.is_named)
        every = (*(one.posts for one in self.games), *named)
        return sum(not post.official for posts in every for post in posts)


def show_crews(record: LeagueRecord, night: date) -> CrewsShown:
    """Return the crews of a night.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: no game is that night.
    """
    read = read_folder(record)
    games, later = _games(read, record, night)
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
                posts=tuple(posts_of(roles, read.crews, one.game)),
            )
            for one in games
        ),
        later=tuple(
            LaterCrew(
                game=one.fixture.game,
                home=one.fixture.home,
                away=one.fixture.away,
                before=day_of_season(one.before),
                is_named=one.is_named,
                posts=tuple(posts_of(roles, read.crews, one.fixture.game, night)),
            )
            for one in later
        ),
        officials=tuple(sorted(named)),
    )


def set_crews(
    record: LeagueRecord, night: date, chosen: Mapping[tuple[GameId, int], str]
) -> None:
    """Write who fills each post of a night; a post that is not named, or by nobody, is open.

    A game that was stopped before and goes on on that night has a crew of its own for it; the
    crew of its first night stays.

    Raises:
        InputFaults: somebody would be at two games at once, or twice at one; nothing was written.
        WholeballError: no game is that night, or it cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        games, later = _games(read, record, night)
        ours: dict[GameId, date | None] = {
            **{one.game: None for one in games},
            **{one.fixture.game: night for one in later},
        }
        roles = read.season.rulebook.crew.roles
        kept = [one for one in read.crews if (one.game, one.day) not in ours.items()]
        new = [
            OnCrew(game=game, role=role, official=official, day=day)
            for game, day in ours.items()
            for place, role in enumerate(roles)
            if (official := chosen.get((game, place), ""))
        ]
        faults = [*_twice((*games, *(one.fixture for one in later)), new), *_double(games, new)]
        if faults:
            raise InputFaults(faults)
        data = write_table([one.name for one in CREW_COLUMNS], _rows((*kept, *new)))
        read_folder(record, instead={CREWS_FILE: data})
        record.write({CREWS_FILE: data})


def _twice(games: Iterable[Fixture | OpenFixture], new: Iterable[OnCrew]) -> Iterator[Fault]:
    """Find who would be on one crew twice."""
    counts = Counter((one.game, one.official) for one in new)
    for one in games:
        for (game, official), many in counts.items():
            if game == one.game and many > 1:
                says = f"{official} stands {many} times on the crew of {one.home} v {one.away}."
                yield _wrong("duplicate", says, "Name somebody else, or nobody yet.")


def _double(games: Iterable[Fixture | OpenFixture], new: Iterable[OnCrew]) -> Iterator[Fault]:
    """Find who would be at several games that start at once."""
    by_start: dict[tuple[time, str], list[str]] = {}
    for one in games:
        for official in dict.fromkeys(each.official for each in new if each.game == one.game):
            named = by_start.setdefault((one.start, official), [])
            named.append(f"{one.home} v {one.away}")
    for (start, official), several in by_start.items():
        if len(several) > 1:
            both = listed(tuple(several))
            says = f"{official} would work {len(several)} games at {start:%H:%M}: {both}."
            yield _wrong("clash", says, "Give all but one of them somebody else.")


def _wrong(code: str, says: str, cure: str) -> Fault:
    place = Place(file=CREWS_FILE, column="official")
    return Fault(code=code, place=place, says=says, cure=cure)


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
) -> tuple[tuple[Fixture | OpenFixture, ...], tuple[LaterNight, ...]]:
    """Return the games of a night, and those stopped before that go on on it, or may."""
    every: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    games, later = of_night(every, night), on_night(read, night)
    if not games and not later:
        raise no_game(every, record, night)
    return games, later


def posts_of(
    roles: Iterable[str], crews: Iterable[OnCrew], game: GameId, day: date | None = None
) -> Iterator[Post]:
    """Yield the posts of a game on a night; of a role that is there twice, one each."""
    left = [one for one in crews if (one.game, one.day) == (game, day)]
    for place, role in enumerate(roles):
        found = next((one for one in left if one.role == role), None)
        if found is not None:
            left.remove(found)
        yield Post(place=place, role=role, official="" if found is None else found.official)


def _rows(crews: Iterable[OnCrew]) -> Iterator[tuple[str, ...]]:
    for one in crews:
        day = "" if one.day is None else one.day.isoformat()
        yield one.game, one.role, one.official, day
