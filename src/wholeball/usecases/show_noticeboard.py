"""Shows the front page of a season to the public, and holds what all its pages are made of."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import cached_property
from typing import Final, TypeVar
from zoneinfo import ZoneInfo

from wholeball.files.folder import SeasonFolder
from wholeball.files.game_log import log_name
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId, PoolId
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.league.record import LeagueRecord
from wholeball.league.texts import LastingTexts
from wholeball.reports.calendar import Entry, week_of
from wholeball.reports.calendar_page import Calendar
from wholeball.reports.dates import day
from wholeball.reports.index_page import Door, Front, index_page
from wholeball.reports.noticeboard_page import NoticeboardTold, Word, noticeboard_page
from wholeball.reports.shell import Link, Shell, Spot
from wholeball.rulebook.differences import compared
from wholeball.rulebook.sentence import counted
from wholeball.season.season import pool_tables
from wholeball.season.standings import RoundTable
from wholeball.usecases.addresses import Addresses
from wholeball.usecases.bracket_stands import BracketStands, brackets_stand
from wholeball.usecases.calendar_pages import calendar_of
from wholeball.usecases.season_draws import FOLDER as DRAWS
from wholeball.usecases.tonight import games_told, line, tonight

_T = TypeVar("_T")
GAMES: Final = "games"
_NOTES: Final[dict[Word, str]] = {"off": "off", "later": "next word to come"}
"""What a calendar says beside a game that is not on."""


class NoSuchPage(WholeballError):
    """Nothing of a season stands at an address."""

    def __init__(self) -> None:
        """Say so, and nothing about what would."""
        super().__init__("There is no such page.", fix="Begin at the front page.", code="page")


@dataclass(frozen=True, kw_only=True)
class Around:
    """What the site knows of the pages: where they begin, its styles, and where to sign in."""

    root: str
    styles: tuple[str, ...]
    own: str


@dataclass(frozen=True, kw_only=True)
class Board:
    """A season that is shown; `now` is an instant, and `around` what the site says of it."""

    record: LeagueRecord
    read: SeasonFolder
    around: Around
    now: datetime

    @cached_property
    def at(self) -> Addresses:
        """The addresses of its pages."""
        return Addresses(self.around.root)

    @cached_property
    def local(self) -> datetime:
        """Now, where the league plays."""
        return self.now.astimezone(ZoneInfo(self.read.season.league.timezone))

    @cached_property
    def pools(self) -> tuple[PoolId, ...]:
        """The pools in their order; the number of a pool counts from 1."""
        return tuple(self.read.season.league.pools)

    def tables(self, pool: PoolId) -> tuple[RoundTable, ...]:
        """Return the tables of a pool after each round, oldest first."""
        return self._once(f"tables of {pool}", lambda: pool_tables(self.read.season, pool))

    def has_table(self, pool: PoolId) -> bool:
        """Tell whether a game of a pool has a result, without making its tables."""
        teams = frozenset(self.read.season.league.pools[pool])
        return any(one.home in teams for one in self.read.season.results)

    @cached_property
    def brackets(self) -> tuple[BracketStands, ...]:
        """The brackets that are drawn, or could be drawn now."""
        stand = self._once("brackets", lambda: brackets_stand(self.read))
        return tuple(one for one in stand if one.lines and (one.drawn or one.can_be_drawn))

    @cached_property
    def games(self) -> Mapping[GameId, str]:
        """The pages of the games that something is recorded of."""
        there = frozenset(self.record.names(GAMES))
        return {
            one.game: self.at.game(one.game)
            for one in self.read.timetable
            if log_name(one.game).removeprefix(f"{GAMES}/") in there
        }

    @cached_property
    def calendar(self) -> Calendar:
        """The timetable, with the pages of its teams, fields, weeks, nights and games."""
        plain, at = calendar_of(self.read), self.at
        weeks = sorted({week_of(one.night, plain.first_day) for one in plain.games})
        return replace(
            plain,
            games=tuple(self._with_word(one) for one in plain.games),
            teams={team: at.team(team) for team in plain.teams},
            fields={field: at.field(field) for field in plain.fields},
            weeks={number: at.week(number) for number in weeks},
            nights={one.night: at.night(one.night) for one in plain.games},
            pages=self.games,
            own=self.around.own,
        )

    @cached_property
    def _words(self) -> Mapping[GameId, str]:
        """What was said of games, where it is not that they are on."""
        planning = self.read.planning
        spoken = {one.night for one in planning.notices}
        every: tuple[Fixture | OpenFixture, ...] = (
            *self.read.timetable,
            *self.read.open_fixtures,
        )
        nights = {
            one.day
            for one in every
            if one.day in spoken
            or any(each.first <= one.day <= each.last for each in planning.closures)
        }
        return {
            game.game: _NOTES[told.word]
            for night in nights
            for game, told in tonight(self.read, night).games
            if told.word in _NOTES
        }

    @cached_property
    def shell(self) -> Shell:
        """What its pages share."""
        at, book = self.at, self.read.season.rulebook
        one_pool = len(self.pools) == 1 and self.has_table(self.pools[0])
        return Shell(
            links=(
                Link(label="Noticeboard", href=at.front),
                Link(label="Standings", href=at.table(1) if one_pool else at.tables),
                Link(label="Calendar", href=at.calendar),
                Link(label="Results", href=at.results()),
                *self.bracket_links,
                Link(label="House rules", href=at.rules),
                Link(label="Your own", href=self.around.own),
            ),
            rulebook=book.head.name,
            digest=book.digest,
            printed=self.local,
            as_of="as of",
            styles=self.around.styles,
        )

    def _once(self, name: str, make: Callable[[], _T]) -> _T:
        """Return what is made of the season alone, once for all of its pages."""
        if isinstance(self.record, LastingTexts):
            return self.record.made.once(name, make)
        return make()

    @property
    def tables_link(self) -> str:
        """The link among the shell's that leads to standings."""
        return self.shell.links[1].href

    @property
    def bracket_links(self) -> tuple[Link, ...]:
        """The links to the brackets."""
        return tuple(
            Link(label=f"Bracket {one.bracket}".strip(), href=self.at.bracket(number))
            for number, one in enumerate(self.brackets, start=1)
        )

    def _with_word(self, one: Entry) -> Entry:
        """Return a game of the calendar with what was said of it, until it has a result."""
        word = self._words.get(one.game, "") if one.ended is None else ""
        return replace(one, note=", ".join(filter(None, (one.note, word))))


def front_of(board: Board) -> str:
    """Return the front page: tonight, and the doors to everything else."""
    found = tonight(board.read, board.local.date())
    return noticeboard_page(
        NoticeboardTold(
            league=board.read.season.league.name,
            night=day(board.local.date()),
            tonight=line(found, board.local),
            games=games_told(found, board.local, board.games),
            doors=tuple(_doors(board)),
        ),
        shell=board.shell,
        here=board.at.front,
    )


def tables_of(board: Board) -> str:
    """Return the list of all standings."""
    return index_page(
        Front(
            title="Standings",
            says="Each pool with the reason for every place.",
            spot=Spot.counting(len(board.pools), "pool"),
            doors=tuple(
                _door_of(board, number, pool)
                for number, pool in enumerate(board.pools, start=1)
            ),
        ),
        shell=board.shell,
        here=board.at.tables,
    )


def _door_of(board: Board, number: int, pool: PoolId) -> Door:
    """Return the door to a pool's table; before its first result it has none."""
    teams = counted(len(board.read.season.league.pools[pool]), "team")
    if not board.has_table(pool):
        return Door(links=(), says=f"{pool}: {teams}, no result yet.")
    return Door(links=(Link(label=pool, href=board.at.table(number)),), says=teams)


def _doors(board: Board) -> Iterator[Door]:
    links, at = board.shell.links, board.at
    yield Door(links=(links[1],), says="The table, and why each team stands where it does.")
    coming = next_night(board.calendar, board.local.date())
    nights = () if coming is None else (Link(label=day(coming), href=at.night(coming)),)
    yield Door(
        links=(links[2], *nights),
        says="Every game by week and night; each team and each field with a page of its own.",
    )
    yield Door(links=(links[3],), says="Round by round, with what does not stand as played.")
    if board.brackets:
        yield Door(links=board.bracket_links, says="Who meets whom to the final.")
    yield Door(
        links=(Link(label="Draws of lots", href=at.draws),),
        says="What was promised and drawn, and how anybody checks it."
        if board.record.names(DRAWS)
        else "No draw was promised yet: its mark stands here before it is held.",
    )
    standing = compared(board.read.season.rulebook).values()
    differing = sum(one.standing == "differs" for one in standing)
    differ = "article differs" if differing == 1 else "articles differ"
    yield Door(
        links=(Link(label="What is different here", href=at.rules),),
        says=f"{differing} {differ} from the Laws of the Game; every article in plain words.",
    )


def next_night(calendar: Calendar, today: date) -> date | None:
    """Return the first night from today on that has a game."""
    return min((one.night for one in calendar.games if one.night >= today), default=None)
