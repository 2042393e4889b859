"""Judges a timetable that is being changed by hand: what it breaks, before anything is kept."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Final

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.problem import played_games, problem_of
from wholeball.files.table import MOST_BYTES
from wholeball.files.timetable import FILE
from wholeball.files.timetable_edit import ListedGame, listed_games, moved
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.planning.answer import Broken, Line, Report
from wholeball.planning.check import check
from wholeball.planning.days import clock, day
from wholeball.planning.difference import Moved, difference
from wholeball.planning.problem import Placement, TimetableProblem

TRIED: Final = 20
"""Places that are tried as a cure."""
NOTHING: Final[Report] = Report(broken=(), lines=())


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

    @cached_property
    def played(self) -> frozenset[GameId]:
        """The games that have a result or an entry, and stay where they were played."""
        return played_games(self.read)

    @property
    def changes(self) -> int:
        """How many games are elsewhere, new, gone, or between others."""
        return len({*(one.game for one in self.moved), *self.others})

    @property
    def new(self) -> int:
        """How many of them were not listed until now."""
        return len(self.games.keys() - self.were.keys())

    @property
    def elsewhere(self) -> int:
        """How many of them were listed, and change."""
        return self.changes - self.new

    @property
    def differs(self) -> bool:
        """Whether the draft says anything else than is published, be it of a round alone."""
        return self.were != self.games

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
    def was_broken(self) -> tuple[Broken, ...]:
        """The rules that the published timetable breaks."""
        return self.was_report.broken

    @property
    def newly_broken(self) -> tuple[Broken, ...]:
        """The rules that the draft breaks and the published timetable does not."""
        return tuple(one for one in self.report.broken if one not in self.was_broken)

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

    def broken_of(self, desk: Desk) -> tuple[Broken, ...]:
        """Return every rule that the timetable breaks with it."""
        return (*(one for one in desk.report.broken if one not in self.mended), *self.broken)


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
        WholeballError: there is no such game, or it was played.
    """
    game = desk.games.get(to.game)
    if game is None:
        raise WholeballError(
            f"There is no game {to.game} in the timetable.",
            fix="Choose one of the board.",
            code="unknown_game",
        )
    _refuse_played(desk, game)
    taken = next((one for one in desk.games.values() if _is_at(one, to)), None)
    places = [to]
    swaps = swaps and taken is not None and taken.game not in desk.played
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
        swaps=swaps,
        text=text,
        broken=tuple(one for one in after.broken if one not in before.broken),
        mended=tuple(one for one in before.broken if one not in after.broken),
        wishes=tuple(one for one in after.lines if one not in before.lines),
        cost=after.total - before.total,
    )


def refuse_taken(found: Proposal, played: frozenset[GameId]) -> None:
    """Refuse to put a game where another is.

    Raises:
        WholeballError: the place is taken, and the two do not change places.
    """
    if found.taken is None or found.swaps:
        return
    taken = found.taken
    may_swap = taken.game not in played
    raise WholeballError(
        f"Game {taken.game}, {taken.home} v {taken.away}, is there.",
        fix="Let the two change places, or choose another." if may_swap else "Choose another.",
        code="conflict",
    )


def cure_of(desk: Desk, found: Proposal, now: datetime) -> Placement | None:
    """Return the nearest free place to the one proposed at which the game breaks no must.

    `now` is local: what has begun is no cure. Few places are tried, the nearest first.
    """
    if desk.problem is None:
        return None
    here = {(one.placement.start, one.field) for one in desk.games.values()}
    free = [slot for slot in desk.problem.slots if (slot.start, slot.field) not in here]
    wanted = datetime.combine(found.to.start.night, found.to.start.at)
    free = [slot for slot in free if datetime.combine(slot.night, slot.at) >= now]
    free.sort(key=lambda one: (abs(datetime.combine(one.night, one.at) - wanted), one.field))
    for slot in free[:TRIED]:
        place = Placement(game=found.game.game, start=slot.start, field=slot.field)
        after = desk.judged(listed_games(moved(desk.text, [place])).values())
        if all(one in desk.report.broken for one in after.broken):
            return place
    return None


def _refuse_played(desk: Desk, game: ListedGame) -> None:
    if game.game in desk.played:
        raise WholeballError(
            f"Game {game.game} was played: {where(game.placement)}.",
            fix="A game that was played keeps its place. What was wrong with it is mended on its"
            " own page.",
            code="played",
        )


def where(one: Placement) -> str:
    """Say a place in words: "Monday 4 January at 18:05, Meadow 2"."""
    return f"{day(one.start.night)} at {clock(one.start.at)}, {one.field}"


def _is_at(one: ListedGame, to: Placement) -> bool:
    here = one.placement
    return one.game != to.game and (here.start, here.field) == (to.start, to.field)


def _sides(text: bytes) -> dict[GameId, tuple[str, str]]:
    return {game: one.sides for game, one in listed_games(text).items()}


def _places(games: Iterable[ListedGame]) -> tuple[Placement, ...]:
    return tuple(one.placement for one in games)
