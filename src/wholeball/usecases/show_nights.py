"""Shows the nights of a season, and one of them: its games and how far each is."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Literal, TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.days import day_of_season
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.reports.night import NightGame, night_games, night_sites
from wholeball.reports.night_words import unwritten
from wholeball.usecases.later_nights import LaterNight, later_nights
from wholeball.usecases.local_day import local, local_day
from wholeball.usecases.print_booklet import Paper
from wholeball.usecases.set_crews import posts_of
from wholeball.usecases.settled import settled
from wholeball.usecases.show_game import score_in
from wholeball.usecases.tonight import counts, not_on, tonight
from wholeball.usecases.usual_paper import other_paper

State: TypeAlias = Literal["off", "before", "on", "over"]
May: TypeAlias = Callable[[GameId], bool]
"""Tells whether a reader may see a game."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NightLine:
    """A night of the list: how many of its games are played and how many are certified.

    Of its games `later` are those that were stopped before and go on.
    """

    day: date
    games: int
    later: int
    with_result: int
    certified: int
    is_over: bool

    @property
    def title(self) -> str:
        """The day as people say it."""
        return day_of_season(self.day)

    @property
    def state(self) -> State:
        """How far it is: nothing to do before it, something after, or nothing more."""
        if self.certified == self.games:
            return "over"
        return "on" if self.with_result else "before"

    @property
    def word(self) -> str:
        """The state in words."""
        if self.certified == self.games:
            return "all certified"
        if self.with_result:
            return f"{self.certified} of {self.games} certified"
        return "no result yet" if self.is_over else "to come"


@dataclass(frozen=True, slots=True, kw_only=True)
class NightsShown:
    """The nights of a season that a reader may see, in their order."""

    league: str
    nights: tuple[NightLine, ...]
    next_night: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GameLine:
    """A game of a night."""

    game: GameId
    start: str
    field: str
    home: str
    away: str
    crew: tuple[tuple[str, str], ...]
    score: str
    state: State
    word: str
    is_first: bool
    is_open: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LaterLine:
    """A game that was stopped on a night before, and goes on; nobody keeps when and where."""

    game: GameId
    home: str
    away: str
    before: str
    crew: tuple[tuple[str, str], ...]
    score: str
    state: State
    word: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PageLacking:
    """An emergency page of a night that is not all written down; `site` is "" where none is known."""

    site: str
    fields: tuple[str, ...]
    unwritten: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NightShown:
    """One night: its games, emergency pages that lack something, and the nights around it.

    `later` are games that were stopped before and go on. `counts` says how many games are on and
    off, where they are not all on. The night `is_to_come` until the first game starts. Its papers can be had for `other_paper` as
    well as for the usual one.
    """

    league: str
    day: date
    games: tuple[GameLine, ...]
    counts: str
    later: tuple[LaterLine, ...]
    lacking: tuple[PageLacking, ...]
    before: date | None
    after: date | None
    is_to_come: bool
    other_paper: Paper

    @property
    def title(self) -> str:
        """The day as people say it."""
        return day_of_season(self.day)

    @property
    def played(self) -> tuple[GameId, ...]:
        """The games of the night, those that go on among them."""
        return (*(one.game for one in self.games), *(one.game for one in self.later))

    @property
    def head(self) -> int:
        """What is counted at the head: the games of a night to come, then what is left to do."""
        if not self.is_to_come:
            return self.left
        return sum(one != "off" for one in self._states)

    @property
    def head_label(self) -> str:
        """What that number is of."""
        if not self.is_to_come:
            return "not certified"
        return "game" if self.head == 1 else "games"

    @property
    def left(self) -> int:
        """How many games are not certified yet."""
        return sum(one not in ("over", "off") for one in self._states)

    @property
    def _states(self) -> tuple[State, ...]:
        return (*(one.state for one in self.games), *(one.state for one in self.later))


def show_nights(record: LeagueRecord, *, at: datetime, may: May) -> NightsShown:
    """Return the nights of a season on which a reader may see a game.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    on = local_day(read, at)
    by_day: dict[date, list[Fixture | OpenFixture]] = {}
    for one in _seen(read, may):
        by_day.setdefault(one.day, []).append(one)
    later = [one for one in later_nights(read) if may(one.fixture.game)]
    for night in later:
        by_day.setdefault(night.day, []).append(night.fixture)
    results = settled(read)
    return NightsShown(
        league=read.season.league.name,
        nights=tuple(
            NightLine(
                day=day,
                games=len(games),
                later=sum(one.day == day for one in later),
                with_result=sum(results.get(one.game, "") != "" for one in games),
                certified=sum(results.get(one.game) == "certified" for one in games),
                is_over=day < on,
            )
            for day, games in sorted(by_day.items())
        ),
        next_night=min((day for day in by_day if day >= on), default=None),
    )


def show_night(
    record: LeagueRecord, night: date, *, at: datetime, may: May, clock: time = time.min
) -> NightShown:
    """Return the games of a night that a reader may see, at a time of the day.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season, or no such game that night.
    """
    read = read_folder(record)
    seen = tuple(_seen(read, may))
    there = of_night(seen, night)
    known = [one for one in later_nights(read) if may(one.fixture.game)]
    later = [one for one in known if one.day == night]
    if not there and not later:
        raise WholeballError(
            f"No game is on {night}.", fix="Choose another night.", code="no_game"
        )
    days = sorted({*(one.day for one in seen), *(one.day for one in known)})
    where = days.index(night)
    league = read.season.league
    games = night_games(there, league.teams, read.crews, read.season.rulebook.crew.roles)
    found = tonight(read, night)
    said = not_on(found, clock)
    names = {one.game for one in there}
    shown = [(one, told) for one, told in found.games if one.game in names]
    return NightShown(
        league=league.name,
        day=night,
        games=tuple(_lines(read, games, said)),
        counts=counts(shown, clock) if names & said.keys() else "",
        later=tuple(_later(read, later)),
        lacking=tuple(_lacking(read, games)),
        before=days[where - 1] if where else None,
        after=days[where + 1] if where + 1 < len(days) else None,
        other_paper=other_paper(read),
        is_to_come=_is_to_come(night, there, local(read, at)),
    )


def _is_to_come(night: date, games: Iterable[Fixture | OpenFixture], now: datetime) -> bool:
    """Tell whether nothing of a night has begun; when a game goes on nobody has written down."""
    first = min((one.start for one in games), default=time())
    return (now.date(), now.time()) < (night, first)


def _seen(read: SeasonFolder, may: May) -> Iterable[Fixture | OpenFixture]:
    every: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    return (one for one in every if may(one.game))


def _lacking(read: SeasonFolder, games: Iterable[NightGame]) -> Iterable[PageLacking]:
    for one in night_sites(games, read.sites, read.fields):
        lacks = unwritten(one.site)
        if lacks:
            site = "" if one.site is None else str(one.site.site)
            yield PageLacking(site=site, fields=one.fields, unwritten=lacks)


def _later(read: SeasonFolder, nights: Iterable[LaterNight]) -> Iterable[LaterLine]:
    results, roles = settled(read), read.season.rulebook.crew.roles
    for one in nights:
        game, word = one.fixture.game, results.get(one.fixture.game, "")
        posts = posts_of(roles, read.crews, game, one.day)
        yield LaterLine(
            game=game,
            home=one.fixture.home,
            away=one.fixture.away,
            before=day_of_season(one.before),
            crew=tuple((post.role, post.official) for post in posts),
            score=score_in(read, game) if word else "",
            state="over" if word == "certified" else "on" if word else "before",
            word=word or "to go on",
        )


def _lines(
    read: SeasonFolder,
    games: Iterable[NightGame],
    said: Mapping[GameId, tuple[State, str]],
) -> Iterable[GameLine]:
    results = settled(read)
    begun = {one.fixture.game for one in read.sheets}
    before = ""
    for one in games:
        start, word = f"{one.start:%H:%M}", results.get(one.game, "")
        state: State = "over" if word == "certified" else "on" if word else "before"
        score = score_in(read, one.game) if word else ""
        if one.game in said:
            state, word = said[one.game]
        elif not word:
            word = (
                "no result yet" if one.game in begun or not one.is_open else "a side is to come"
            )
        yield GameLine(
            game=one.game,
            start=start,
            field=one.field,
            home=one.home.name,
            away=one.away.name,
            crew=one.crew,
            score=score,
            state=state,
            word=word,
            is_first=start != before,
            is_open=one.is_open,
        )
        before = start
