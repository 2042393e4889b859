"""States a timetable's question: games, slots, rules and what is fixed already."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import cached_property
from typing import Literal, NamedTuple, TypeAlias

from wholeball.kernel.identity import BlockId, DivisionId, GameId, PoolId, SiteId, TeamId
from wholeball.league.fixture import From, OpenSide, Seeded
from wholeball.planning.rule import Rule


class Start(NamedTuple):
    """All slots of one night that begin at one time; local time."""

    night: date
    at: time


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A field from one start on, for `minutes` that a game and the turnover must fit into."""

    field: str
    site: SiteId
    night: date
    at: time
    minutes: int

    @property
    def start(self) -> Start:
        """The start that the slot belongs to."""
        return Start(self.night, self.at)

    @property
    def ends(self) -> datetime:
        """When the next game may begin on the field, in local time."""
        return datetime.combine(self.night, self.at) + timedelta(minutes=self.minutes)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedTeam:
    """A team as the timetable sees it."""

    team: TeamId
    pool: PoolId
    division: DivisionId | None = None
    block: BlockId | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pairing:
    """A game to be placed; its sides may still be open. `round` orders a pool's games."""

    game: GameId
    home: TeamId | OpenSide
    away: TeamId | OpenSide
    round: int
    pool: PoolId | None = None

    @property
    def sides(self) -> tuple[TeamId | OpenSide, TeamId | OpenSide]:
        """Home and away."""
        return self.home, self.away


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """A slot that would be there but for a closure, and the name of that closure."""

    slot: Slot
    by: str


Why: TypeAlias = Literal["played", "announced", "fixed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lock:
    """A game that stays where it is; `field` is None where only its start is fixed."""

    game: GameId
    start: Start
    field: str | None
    why: Why


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """A game at a start on a field."""

    game: GameId
    start: Start
    field: str


@dataclass(frozen=True, kw_only=True)
class TimetableProblem:
    """The question; `announced` is the timetable that people have read already, if there is one.

    Slots are those that can be used: closures, lights and permits have been taken off. Nights
    kept free for rain are among `spare` and are used by a repair only, or by games that stay
    there. `closed` are those that closures have taken off, for who asks why there is no plan.
    """

    timezone: str
    first_day: date
    last_day: date
    teams: tuple[PlannedTeam, ...]
    pairings: tuple[Pairing, ...]
    slots: tuple[Slot, ...]
    rules: tuple[Rule, ...]
    locks: tuple[Lock, ...] = ()
    announced: tuple[Placement, ...] = ()
    spare: frozenset[date] = frozenset()
    closed: tuple[Closed, ...] = ()

    @cached_property
    def starts(self) -> Mapping[Start, tuple[Slot, ...]]:
        """The slots of each start that may be used, starts in the order of time."""
        stays = {(lock.start, lock.field) for lock in self.locks}
        usable = [
            slot
            for slot in self.slots
            if slot.night not in self.spare
            or not stays.isdisjoint(((slot.start, slot.field), (slot.start, None)))
        ]
        starts: dict[Start, list[Slot]] = {}
        for slot in sorted(usable, key=lambda one: (one.start, one.field)):
            starts.setdefault(slot.start, []).append(slot)
        return {start: tuple(slots) for start, slots in starts.items()}

    @cached_property
    def slot_at(self) -> Mapping[tuple[Start, str], Slot]:
        """The slot of each start and field that can be used, spare nights among them."""
        return {(slot.start, slot.field): slot for slot in self.slots}

    @cached_property
    def played(self) -> frozenset[GameId]:
        """The games that have been played."""
        return frozenset(lock.game for lock in self.locks if lock.why == "played")

    @cached_property
    def by_game(self) -> Mapping[GameId, Pairing]:
        """Each pairing by its game."""
        return {pairing.game: pairing for pairing in self.pairings}

    @cached_property
    def bringing(self) -> frozenset[GameId]:
        """The games that bring a side to another, which cannot do without them."""
        every = (side for one in self.pairings for side in one.sides)
        return frozenset(side.game for side in every if isinstance(side, From))

    @cached_property
    def possible(self) -> Mapping[GameId, frozenset[TeamId]]:
        """The teams that may come to play each game, open sides followed to their games.

        A side that a seed brings may be any team.
        """
        everybody = frozenset(one.team for one in self.teams)
        found: dict[GameId, frozenset[TeamId]] = {}

        def of_side(side: TeamId | OpenSide) -> frozenset[TeamId]:
            if isinstance(side, str):
                return frozenset((TeamId(side),))
            return of_game(side.game) if isinstance(side, From) else everybody

        def of_game(game: GameId) -> frozenset[TeamId]:
            if game not in found:
                home, away = self.by_game[game].sides
                found[game] = of_side(home) | of_side(away)
            return found[game]

        return {game: of_game(game) for game in self.by_game}

    def ways_of(self, team: TeamId) -> tuple[frozenset[GameId], ...]:
        """Return sets of games, each of which a team may play all of; one at least.

        It plays the games that name it. By a seed, or by winning or losing one of them, it comes
        into others: each set is one way through, and no larger one holds it.
        """
        known = frozenset(self._named.get(team, ()))
        ways = [known]
        for game in sorted(known & self._feeding):
            ways = [one | after for one in ways for after in self._after(game)]
        if not self._entries:
            return tuple(ways)
        return tuple(one | after for one in ways for after in self._entries)

    @cached_property
    def _entries(self) -> tuple[frozenset[GameId], ...]:
        """The ways through the bracket from each side that a seed brings."""
        seeded = [
            one.game for one in self.pairings if any(isinstance(s, Seeded) for s in one.sides)
        ]
        return tuple(
            dict.fromkeys(way | {game} for game in seeded for way in self._after(game))
        )

    def _after(self, game: GameId) -> tuple[frozenset[GameId], ...]:
        """Return the ways on from a game: by winning it and by losing it."""
        ways = []
        for takes in ("winner", "loser"):
            later = self._fed.get((game, takes), ())
            for one in later:
                ways += [way | {one} for way in self._after(one)]
            if not later:
                ways.append(frozenset())
        largest = [one for one in dict.fromkeys(ways) if not any(one < other for other in ways)]
        return tuple(largest)

    @cached_property
    def _fed(self) -> Mapping[tuple[GameId, str], list[GameId]]:
        """The games into which the winner and the loser of a game go."""
        fed: dict[tuple[GameId, str], list[GameId]] = {}
        for one in self.pairings:
            for side in one.sides:
                if isinstance(side, From):
                    fed.setdefault((side.game, side.takes), []).append(one.game)
        return fed

    @cached_property
    def _feeding(self) -> frozenset[GameId]:
        return frozenset(game for game, _ in self._fed)

    @cached_property
    def _named(self) -> Mapping[TeamId, list[GameId]]:
        named: dict[TeamId, list[GameId]] = {}
        for one in self.pairings:
            for side in one.sides:
                if isinstance(side, str):
                    named.setdefault(TeamId(side), []).append(one.game)
        return named

    def week_of(self, day: date) -> int:
        """Return the week of the season, from 0, that a day lies in; weeks begin on Monday."""
        monday = self.first_day - timedelta(days=self.first_day.weekday())
        return (day - monday).days // 7
