"""Shows a day of a season: its games, and everything that somebody should settle, with the cure."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Literal, TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.reports.night import NightGame, night_games
from wholeball.rulebook.sentence import listed
from wholeball.season.appearances import GameSheet
from wholeball.usecases.first_steps import Step, first_steps
from wholeball.usecases.later_nights import later_nights
from wholeball.usecases.local_day import local, local_day
from wholeball.usecases.season_people import known_of
from wholeball.usecases.settled import settled
from wholeball.usecases.thing_to_settle import NOTHING, OnDay, Sheets, ToSettle
from wholeball.usecases.to_settle import lacking_of, to_settle
from wholeball.usecases.tonight import counts, not_on
from wholeball.usecases.tonight import tonight as said_of

State: TypeAlias = Literal["off", "before", "on", "over"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TonightGame:
    """A game of the day with its crew, and how far it is."""

    game: GameId
    start: time
    field: str
    home: str
    away: str
    crew: tuple[str, ...]
    state: State
    word: str
    is_first: bool
    is_open: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """A day: its games, what is to settle, and the next night where it has no game.

    `counts` says how many games are on and off, where they are not all on.
    `steps` lead to the first night, and are none once a game has been played. `owing` teams owe a
    fee; it is None where the rulebook has none. Of the games that were stopped before, `later` go on.
    """

    league: str
    day: date
    games: tuple[TonightGame, ...]
    counts: str
    to_settle: tuple[ToSettle, ...]
    next_night: date | None
    suspended: int
    not_cleared: int
    steps: tuple[Step, ...] = ()
    owing: int | None = None
    later: int = 0

    @property
    def title(self) -> str:
        """The day as people say it."""
        return day_of_season(self.day)

    @property
    def fields(self) -> str:
        """Where games are played, as a list."""
        return listed(tuple(dict.fromkeys(one.field for one in self.games)))


def show_today(
    record: LeagueRecord,
    *,
    at: datetime,
    day: date | None = None,
    unread: Mapping[GameId, int] = NOTHING,
) -> Today:
    """Return a day of a season, today otherwise, and what is open by then; for staff only.

    `unread` counts the reports about games that the reader has not read yet.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    on = day or local_day(read, at)
    return today_of(read, on, unread, clock=local(read, at).time())


def today_of(
    read: SeasonFolder,
    on: date,
    unread: Mapping[GameId, int] = NOTHING,
    *,
    clock: time = time.min,
) -> Today:
    """Return a day of a season as it was read, at a time of the day."""
    listed_games: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    tonight = of_night(listed_games, on)
    roles = read.season.rulebook.crew.roles
    games = night_games(tonight, read.season.league.teams, read.crews, roles)
    sheets = {one.fixture.game: one for one in read.sheets}
    found = said_of(read, on)
    known = known_of(read, on)
    later = [one for one in later_nights(read) if one.day == on]
    blocked = len({one.person for one in read.not_cleared if one.holds_on(on)})
    about = OnDay(
        day=on,
        games=[one for one in games if one.game not in found.off],
        later=later,
        sheets=sheets,
        known=known,
        blocked=blocked,
        unread=unread,
    )
    return Today(
        league=read.season.league.name,
        day=on,
        games=tuple(_tonight(games, sheets, {**_results(read), **not_on(found, clock)})),
        counts=counts(found.games, clock) if not_on(found, clock) else "",
        to_settle=tuple(to_settle(read, about)),
        suspended=len({one.person for one in known.discipline.open}),
        not_cleared=blocked,
        next_night=min((one.day for one in listed_games if one.day > on), default=None),
        steps=first_steps(read),
        later=len(later),
        owing=len(known.fees.open_by_team()) if known.book.forfeit.fee.amount else None,
    )


def _tonight(
    games: Sequence[NightGame], sheets: Sheets, said: Mapping[GameId, tuple[State, str]]
) -> Iterator[TonightGame]:
    before: time | None = None
    for one in games:
        state, word = said.get(one.game) or _how_far(one, sheets.get(one.game))
        yield TonightGame(
            game=one.game,
            start=one.start,
            field=one.field,
            home=one.home.name,
            away=one.away.name,
            crew=tuple(name for _, name in one.crew if name),
            state=state,
            word=word,
            is_first=one.start != before,
            is_open=one.is_open,
        )
        before = one.start


def _results(read: SeasonFolder) -> dict[GameId, tuple[State, str]]:
    return {
        game: ("over" if word == "certified" else "on", word)
        for game, word in settled(read).items()
    }


def _how_far(game: NightGame, sheet: GameSheet | None) -> tuple[State, str]:
    if game.is_open:
        return "before", "a side is to come"
    if sheet is not None:
        return "on", "under way"
    lacking = lacking_of(game)
    return ("before", f"{lacking} missing") if lacking else ("over", "crew complete")
