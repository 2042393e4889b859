"""Judges a timetable that is being changed by hand: what it breaks, before anything is kept."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.problem import problem_of
from wholeball.files.table import MOST_BYTES
from wholeball.files.timetable import FILE
from wholeball.files.timetable_edit import ListedGame, listed_games, moved
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.planning.answer import Broken, Line, Report
from wholeball.planning.check import check
from wholeball.planning.difference import Moved, difference
from wholeball.planning.problem import Placement, TimetableProblem

NOTHING: Report = Report(broken=(), lines=())


@dataclass(frozen=True, kw_only=True)
class Desk:
    """A timetable as somebody would have it, beside the one that is published.

    `asked` is the season whose rules a draft is held to where it has other games than are
    published, such as a plan made anew.
    """

    read: SeasonFolder
    published: bytes
    text: bytes
    asked: SeasonFolder | None = None

    @cached_property
    def games(self) -> Mapping[GameId, ListedGame]:
        """The games as they would be."""
        return listed_games(self.text)

    @cached_property
    def were(self) -> Mapping[GameId, ListedGame]:
        """The games as they are published."""
        return listed_games(self.published)

    @cached_property
    def moved(self) -> tuple[Moved, ...]:
        """What the draft moves."""
        return difference(_places(self.were.values()), _places(self.games.values()))

    @cached_property
    def others(self) -> frozenset[GameId]:
        """The games whose name another pairing has by the draft."""
        return frozenset(
            game
            for game, one in self.games.items()
            if game in self.were and self.were[game].sides != one.sides
        )

    @property
    def changes(self) -> int:
        """How many games are elsewhere, new, gone, or between others."""
        return len({*(one.game for one in self.moved), *self.others})

    @property
    def has_rules(self) -> bool:
        """Whether planning.toml and slots.csv say what a timetable is held to."""
        return self.read.planning.said is not None and bool(self.read.planning.slots)

    @cached_property
    def problem(self) -> TimetableProblem | None:
        """What the timetable is held to, None where nothing says so."""
        return problem_of(self.asked or self.read) if self.has_rules else None

    @cached_property
    def report(self) -> Report:
        """What the timetable breaks as it would be."""
        return self.judged(self.games.values())

    @cached_property
    def was_report(self) -> Report:
        """What it breaks as it is published."""
        published = Desk(read=self.read, published=self.published, text=self.published)
        return published.report if self.text != self.published else self.report

    @property
    def newly_broken(self) -> tuple[Broken, ...]:
        """The rules that the draft breaks and the published timetable does not."""
        return tuple(one for one in self.report.broken if one not in self.was_report.broken)

    def judged(self, games: Iterable[ListedGame]) -> Report:
        """Return what games at their places break; nothing where there are no rules."""
        return NOTHING if self.problem is None else check(self.problem, _places(games))


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """One game at another place, or two that change places, and what that would break.

    `taken` is the game that has the place already.
    """

    game: ListedGame
    to: Placement
    taken: ListedGame | None
    swaps: bool
    text: bytes
    broken: tuple[Broken, ...]
    mended: tuple[Broken, ...]
    wishes: tuple[Line, ...]
    cost: int


def desk_of(record: LeagueRecord, *, published: bytes, text: bytes) -> Desk:
    """Return a draft beside what is published, held to the rules of its own games.

    Raises:
        InputFaults: everything that is wrong with the season, or with it under the draft.
    """
    read = read_folder(record)
    has_others = _sides(text) != _sides(published)
    asked = read_folder(record, instead={FILE: text}) if has_others else None
    return Desk(read=read, published=published, text=text, asked=asked)


def published_timetable(record: LeagueRecord) -> bytes:
    """Return timetable.csv as it is published, nothing where there is none."""
    return record.read(FILE, MOST_BYTES) if record.has(FILE) else b""


def proposed(desk: Desk, to: Placement, *, swaps: bool = False) -> Proposal:
    """Return what becomes of a timetable when a game is put elsewhere.

    Raises:
        WholeballError: there is no such game.
    """
    game = desk.games.get(to.game)
    if game is None:
        raise WholeballError(
            f"There is no game {to.game} in the timetable.",
            fix="Choose one of the board.",
            code="unknown_game",
        )
    taken = next((one for one in desk.games.values() if _is_at(one, to)), None)
    places = [to]
    if swaps and taken is not None:
        here = game.placement
        places.append(Placement(game=taken.game, start=here.start, field=here.field))
    text = moved(desk.text, places)
    after = desk.judged(listed_games(text).values())
    before = desk.report
    return Proposal(
        game=game,
        to=to,
        taken=taken,
        swaps=swaps and taken is not None,
        text=text,
        broken=tuple(one for one in after.broken if one not in before.broken),
        mended=tuple(one for one in before.broken if one not in after.broken),
        wishes=tuple(one for one in after.lines if one not in before.lines),
        cost=after.total - before.total,
    )


def _is_at(one: ListedGame, to: Placement) -> bool:
    here = one.placement
    return one.game != to.game and (here.start, here.field) == (to.start, to.field)


def _sides(text: bytes) -> dict[GameId, tuple[str, str]]:
    return {game: one.sides for game, one in listed_games(text).items()}


def _places(games: Iterable[ListedGame]) -> tuple[Placement, ...]:
    return tuple(one.placement for one in games)
