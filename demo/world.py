"""Holds the invented league: its size, its people, its teams, and the games they are to play."""

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import Final, Literal, NamedTuple, TypeAlias

Side: TypeAlias = Literal["home", "away"]
SIDES: Final[tuple[Side, Side]] = ("home", "away")


def other(side: Side) -> Side:
    """Return the opponents of a side."""
    return "away" if side == "home" else "home"


class Block(NamedTuple):
    """When a division plays."""

    block: str
    division: str
    weekday: str
    places: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How large the season is; every division has one block and `pools` pools.

    A team has `squad` players, but the one that is `formed` of players who signed up alone. The
    night of the last block in the week `rain` is lost to rain.
    """

    name: str
    title: str
    pools: int
    pool_size: int
    rounds: int
    squad: int
    formed: int
    officials: int
    blocks: tuple[Block, ...]
    fields: tuple[tuple[str, str], ...]
    first_night: date
    rain: int

    @property
    def first_day(self) -> date:
        """The season's first day, on which captains hand their lists in."""
        return self.first_night - timedelta(days=7)

    @property
    def opens(self) -> datetime:
        """When sign-ups open, in local time, as lists have it."""
        return datetime.combine(self.first_night - timedelta(days=22), time(9))

    def nights(self, block: Block) -> list[date]:
        """Return the nights of a block, and last the one that is kept for rain."""
        later = 2 * self.blocks.index(block)
        return [
            self.first_night + timedelta(days=7 * week + later)
            for week in range(self.rounds + 1)
        ]

    @property
    def rained_off(self) -> date:
        """The night that is lost to rain."""
        return self.nights(self.blocks[-1])[self.rain - 1]

    @property
    def play_off_nights(self) -> list[date]:
        """The nights of the quarter-finals, the semi-finals and the finals."""
        first = self.first_night + timedelta(days=7 * (self.rounds + 1))
        return [first + timedelta(days=days) for days in (0, 2, 7)]

    @property
    def last_day(self) -> date:
        """The season's last day."""
        return self.play_off_nights[-1] + timedelta(days=3)

    @property
    def teams(self) -> int:
        """How many teams play."""
        return len(self.blocks) * self.pools * self.pool_size

    @property
    def players(self) -> int:
        """How many people play."""
        return (self.teams - 1) * self.squad + self.formed

    @property
    def going_on(self) -> int:
        """How many teams go on, two of each pool."""
        return len(self.blocks) * self.pools * 2


def _blocks(places: int) -> tuple[Block, ...]:
    return (
        Block("Tuesday", "Harbour", "tuesday", places),
        Block("Thursday", "Orchard", "thursday", places),
    )


_FIELDS: Final = (
    ("Field 1", "Lower Meadow"),
    ("Field 2", "Lower Meadow"),
    ("Quarry", "Quarry Ground"),
)
FULL: Final = Size(
    name="full",
    title="Quillmere, autumn 2026",
    pools=2,
    pool_size=6,
    rounds=5,
    squad=17,
    formed=9,
    officials=24,
    blocks=_blocks(12),
    fields=_FIELDS,
    first_night=date(2026, 9, 8),
    rain=3,
)
SMALL: Final = Size(
    name="small",
    title="Quillmere, autumn 2026",
    pools=1,
    pool_size=4,
    rounds=3,
    squad=13,
    formed=9,
    officials=8,
    blocks=_blocks(4),
    fields=_FIELDS[:2],
    first_night=date(2026, 9, 8),
    rain=2,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """A player; the student id is who they are, whatever a list calls them."""

    student: str
    name: str
    number: int | None
    is_captain: bool = False


@dataclass(slots=True, kw_only=True)
class Team:
    """A team: what it is called, how well it plays, how well it behaves."""

    name: str
    block: str
    colours: tuple[str, str]
    strength: float
    has_numbers: bool = True
    players: list[Person] = field(default_factory=list)
    late: list[Person] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """One game of the timetable; the sides of a play-off game are `opens` until known."""

    game: str
    round: int
    day: date
    start: time
    field: str
    stage: Literal["league", "play_off"]
    home: str = ""
    away: str = ""
    opens: tuple[str, str] = ("", "")
    pool: str = ""
    crew: tuple[str, str] = ("", "")

    def sides(self) -> tuple[str, str]:
        """Return home and away as the timetable has them."""
        return self.opens if self.opens[0] else (self.home, self.away)
