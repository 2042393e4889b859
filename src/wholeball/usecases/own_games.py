"""Finds the games that a team or an official has before them, and how a team's last ones ended."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, time
from typing import Final, Literal, TypeAlias

from wholeball.files.cells import clock_time
from wholeball.files.cells import day as day_of
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.reports.calendar import Entry, of_team
from wholeball.reports.calendar_page import line_of_team
from wholeball.store.feeds import Cells, Changed
from wholeball.usecases.calendar_pages import calendar_of
from wholeball.usecases.show_noticeboard import Board
from wholeball.usecases.tonight import Told, tonight

Word: TypeAlias = Literal["on", "off", "later", "moved"]
Place: TypeAlias = tuple[date, time, str]
MOST_NEXT: Final = 4
MOST_LAST: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class NextGame:
    """A game that a team has before it; `was` is where it stood when the season began."""

    game: str
    when: str
    at: str
    field: str
    against: str
    word: Word
    says: str
    was: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LastGame:
    """A game of a team that has ended, own goals first; `href` is its page, if it has one."""

    game: str
    when: str
    how: str
    against: str
    score: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnTeam:
    """A team as who belongs to it reads it; `page` and `table` are its public pages."""

    team: str
    next: tuple[NextGame, ...]
    last: tuple[LastGame, ...]
    page: str
    table: str


@dataclass(frozen=True, kw_only=True)
class Standing:
    """What holds of the games of a season at a moment: called off, awaiting word, or moved."""

    board: Board
    history: Sequence[Changed]
    _nights: dict[date, Mapping[GameId, Told]] = field(default_factory=dict)

    def of(self, game: GameId, place: Place, was: Place | None) -> tuple[Word, str, str]:
        """Return the word of a game, how it is said, and where it was; a word comes first."""
        night = place[0]
        if night not in self._nights:
            games = tonight(self.board.read, night).games
            self._nights[night] = {one.game: told for one, told in games}
        told = self._nights[night].get(game, Told("on"))
        before = "" if was in (None, place) else _words(was or place)
        if told.word == "off":
            return "off", "off", before
        if told.word == "later":
            is_today = night == self.board.local.date()
            return "later", told.says(self.board.local.time() if is_today else time.min), before
        return ("moved", "moved", before) if before else ("on", "on", "")

    def moved_from(self) -> dict[GameId, Place]:
        """Return where each game stood before it was first moved, since the season began."""
        zone = self.board.local.tzinfo
        first_day = self.board.read.season.league.first_day
        found: dict[GameId, Place] = {}
        for change in self.history:
            if (
                change.name == "timetable.csv"
                and change.at.astimezone(zone).date() >= first_day
            ):
                came = {one["game"] for one in change.came}
                for one in change.gone:
                    if one["game"] in came:
                        found.setdefault(GameId(one["game"]), _place(one))
        return found


def own_teams(stands: Standing, teams: Iterable[str]) -> tuple[OwnTeam, ...]:
    """Return the games of each team, the next first and the last ones newest first.

    Teams that the season does not have are left out.
    """
    board = stands.board
    calendar, was = calendar_of(board.read).games, stands.moved_from()
    listed = {one.team: one for one in board.read.season.league.teams}
    return tuple(
        OwnTeam(
            team=name,
            next=tuple(_next(stands, of_team(calendar, name), name, was))[:MOST_NEXT],
            last=tuple(_last(board, of_team(calendar, name), name))[:MOST_LAST],
            page=board.at.team(name),
            table=_table(board, listed[TeamId(name)].pool),
        )
        for name in teams
        if TeamId(name) in listed
    )


def _table(board: Board, pool: PoolId) -> str:
    """Return the page of a pool's table, or of all of them while it has none."""
    number = board.pools.index(pool) + 1
    return board.at.table(number) if board.has_table(pool) else board.at.tables


def _next(
    stands: Standing, games: Iterable[Entry], team: str, was: Mapping[GameId, Place]
) -> Iterator[NextGame]:
    for one in games:
        if one.ended is None and one.night >= stands.board.local.date():
            place = (one.night, one.start, one.field)
            word, says, before = stands.of(one.game, place, was.get(one.game))
            yield NextGame(
                game=one.game,
                when=one.when,
                at=one.at,
                field=one.field,
                against=one.against(team),
                word=word,
                says=says,
                was=before,
                note=one.note,
            )


def _last(board: Board, games: Sequence[Entry], team: str) -> Iterator[LastGame]:
    for one in reversed(games):
        if one.ended is not None:
            line = line_of_team(one, team)
            ((how, against),) = line.sides
            is_scored = one.ended.goals is not None
            yield LastGame(
                game=one.game,
                when=one.when,
                how=how,
                against=against,
                score=line.number if is_scored else one.ended.by,
                href=board.games.get(one.game, ""),
            )


def _place(cells: Cells) -> Place:
    return day_of(cells["date"]), clock_time(cells["start"]), cells["field"]


def _words(place: Place) -> str:
    night, start, field_ = place
    return f"{day_of_season(night)}, {start:%H:%M}, {field_}"
