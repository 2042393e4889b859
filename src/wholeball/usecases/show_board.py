"""Lays out a week of a timetable as a board: nights across, starts and fields down."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, time, timedelta

from wholeball.files.timetable_edit import ListedGame
from wholeball.kernel.identity import GameId
from wholeball.planning.answer import Broken
from wholeball.planning.days import day
from wholeball.planning.problem import Placement, Start
from wholeball.usecases.move_game import Desk, Proposal

WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True, kw_only=True)
class OnBoard:
    """A game on the board; `broken` are the rules that it breaks there, in words.

    `home` and `away` are the teams that play it, or what is to bring them.
    """

    game: ListedGame
    home: str
    away: str
    broken: tuple[str, ...] = ()
    is_new: bool = False
    is_moved: bool = False
    is_played: bool = False
    is_proposed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """One start on one field of one night; `left` are games that were moved away from it."""

    night: date
    at: time
    field: str
    games: tuple[OnBoard, ...]
    left: tuple[GameId, ...]
    is_slot: bool

    @property
    def key(self) -> str:
        """The place as a form sends it."""
        return f"{self.night}|{self.at:%H:%M}|{self.field}"

    @property
    def says(self) -> str:
        """The place in words."""
        return f"{day(self.night)} {self.at:%H:%M}, {self.field}"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardRow:
    """A start on a field, across the nights."""

    at: time
    field: str
    is_first: bool
    squares: tuple[Square, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A week as a board, with the weeks beside it that have anything."""

    monday: date
    number: int
    nights: tuple[date, ...]
    rows: tuple[BoardRow, ...]
    before: date | None
    after: date | None
    places: tuple[Square, ...]

    @property
    def title(self) -> str:
        """The week in words."""
        return f"Week {self.number}"


def show_board(
    desk: Desk, monday: date | None, today: date, proposal: Proposal | None
) -> Board:
    """Return the board of a week: the one asked for, else this one or the next with a night.

    Where a game is proposed for another place it stands there, and is dashed where it was.
    """
    placed = _Placed(desk, proposal)
    weeks = sorted({_monday(night) for night in placed.nights}) or [_monday(today)]
    here = monday or next((one for one in weeks if one >= _monday(today)), weeks[-1])
    nights = tuple(sorted(one for one in placed.nights if _monday(one) == here))
    earlier = [one for one in weeks if one < here]
    later = [one for one in weeks if one > here]
    return Board(
        monday=here,
        number=1 + (here - _monday(desk.read.season.league.first_day)).days // 7,
        nights=nights,
        rows=tuple(placed.rows(nights)),
        before=earlier[-1] if earlier else None,
        after=later[0] if later else None,
        places=tuple(placed.squares()),
    )


def square_of(place: Placement) -> Square:
    """Return a free place as a square of its own."""
    return Square(
        night=place.start.night,
        at=place.start.at,
        field=place.field,
        games=(),
        left=(),
        is_slot=True,
    )


def _in_order(field: str) -> tuple[tuple[bool, int, str], ...]:
    """Put "Field 2" before "Field 10": numbers by their size, letters by theirs."""
    parts = re.findall(r"[0-9]+|[^0-9]+", field, re.ASCII)
    return tuple((one.isdigit(), int(one) if one.isdigit() else 0, one) for one in parts)


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


class _Placed:
    """The games by their places, and the places there are."""

    def __init__(self, desk: Desk, proposal: Proposal | None) -> None:
        self.desk = desk
        self.proposal = proposal
        games = dict(desk.games)
        broken: Iterable[Broken] = desk.report.broken
        if proposal is not None:
            games[proposal.game.game] = proposal.game.at(proposal.to)
            broken = proposal.broken_of(desk)
            if proposal.swaps and proposal.taken is not None:
                games[proposal.taken.game] = proposal.taken.at(proposal.game.placement)
        self.broken: dict[GameId, list[str]] = {}
        for one in broken:
            for game in one.games:
                self.broken.setdefault(game, []).append(one.says)
        known = {one.game: (f"{one.home}", f"{one.away}") for one in desk.read.timetable}
        self.games: dict[tuple[Start, str], list[OnBoard]] = {}
        for each in games.values():
            is_known = each.game in known and each.game not in desk.others
            home, away = known[each.game] if is_known else each.sides
            self.games.setdefault((each.placement.start, each.field), []).append(
                OnBoard(
                    game=each,
                    home=home,
                    away=away,
                    broken=tuple(self.broken.get(each.game, ())),
                    is_new=each.game not in desk.were,
                    is_moved=each != desk.were.get(each.game),
                    is_played=each.game in desk.played,
                    is_proposed=proposal is not None and each.game == proposal.game.game,
                )
            )
        self.left: dict[tuple[Start, str], list[GameId]] = {}
        for game, was in (*desk.were.items(), *desk.games.items()):
            now, where = games.get(game), (was.placement.start, was.field)
            is_away = now is None or now.placement != was.placement
            if is_away and game not in self.left.setdefault(where, []):
                self.left[where].append(game)
        closures = desk.read.planning.closures
        self.slots = {
            (slot.start, slot.field)
            for slot in desk.read.planning.slots
            if not any(one.closes(slot) for one in closures)
        }
        gone = {where for where, games in self.left.items() if games}
        self.every = {*self.games, *gone, *self.slots}
        self.nights = {start.night for start, _ in self.every}

    def squares(self) -> Iterator[Square]:
        """Yield every place in the order of time."""
        for start, field in sorted(self.every):
            yield self._square(start.night, start.at, field)

    def rows(self, nights: tuple[date, ...]) -> Iterator[BoardRow]:
        """Yield the starts and fields that any of some nights has."""
        found = {(start.at, field) for start, field in self.every if start.night in nights}
        before = None
        for at, field in sorted(found, key=lambda one: (one[0], _in_order(one[1]))):
            yield BoardRow(
                at=at,
                field=field,
                is_first=at != before,
                squares=tuple(self._square(night, at, field) for night in nights),
            )
            before = at

    def _square(self, night: date, at: time, field: str) -> Square:
        where = (Start(night, at), field)
        return Square(
            night=night,
            at=at,
            field=field,
            games=tuple(self.games.get(where, ())),
            left=tuple(self.left.get(where, ())),
            is_slot=where in self.slots or not self.slots,
        )
