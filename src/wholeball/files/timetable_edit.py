"""Moves games within timetable.csv, and brings two people's changes to one timetable together."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, time

from wholeball.files.table import read_table, write_table
from wholeball.files.timetable import COLUMNS, FILE
from wholeball.kernel.faults import InputFaults
from wholeball.kernel.identity import GameId
from wholeball.planning.problem import Placement, Start


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedGame:
    """A row of the timetable as it is written; sides may be seeds or winners still."""

    game: GameId
    round: int
    day: date
    start: time
    field: str
    home: str
    away: str
    stage: str = ""

    @property
    def placement(self) -> Placement:
        """Where it is played."""
        return Placement(game=self.game, start=Start(self.day, self.start), field=self.field)

    @property
    def sides(self) -> tuple[str, str]:
        """Home and away, as they are written."""
        return self.home, self.away

    def at(self, place: Placement) -> "ListedGame":
        """Return the same game at another place."""
        return ListedGame(
            game=self.game,
            round=self.round,
            day=place.start.night,
            start=place.start.at,
            field=place.field,
            home=self.home,
            away=self.away,
            stage=self.stage,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """Two changes to one timetable as one, and the games that both had changed otherwise."""

    text: bytes
    clashes: tuple[GameId, ...]


def listed_games(data: bytes) -> dict[GameId, ListedGame]:
    """Return the games of a timetable in the order of the file.

    Raises:
        InputFaults: it cannot be read.
    """
    if not data.strip():
        return {}
    table = read_table(data, COLUMNS, file=FILE)
    if table.faults:
        raise InputFaults(table.faults)
    games = (
        ListedGame(
            game=GameId(line.need("game", str)),
            round=line.need("round", int),
            day=line.need("date", date),
            start=line.need("start", time),
            field=line.need("field", str),
            home=line.need("home", str),
            away=line.need("away", str),
            stage=line.get("stage", str) or "",
        )
        for line in table.lines
    )
    return {one.game: one for one in games}


def timetable_of(games: Iterable[ListedGame]) -> bytes:
    """Return timetable.csv, its games in the order of time and field."""
    ordered = sorted(games, key=lambda one: (one.day, one.start, one.field, one.game))
    rows = [
        (
            one.game,
            one.round,
            one.day,
            f"{one.start:%H:%M}",
            one.field,
            one.home,
            one.away,
            one.stage,
        )
        for one in ordered
    ]
    return write_table([column.name for column in COLUMNS], rows)


def moved(data: bytes, places: Iterable[Placement]) -> bytes:
    """Return a timetable with some of its games at other places.

    Raises:
        KeyError: a game is none of the timetable.
    """
    games = listed_games(data)
    for place in places:
        games[place.game] = games[place.game].at(place)
    return timetable_of(games.values())


def merged(base: bytes, ours: bytes, theirs: bytes) -> Merged:
    """Return their timetable with what we changed since `base`.

    Of a game that both changed otherwise ours is taken, and the game is named: nothing that we
    did is lost, and nothing that they did goes unsaid.
    """
    was, mine, other = listed_games(base), listed_games(ours), listed_games(theirs)
    now = dict(other)
    clashes = []
    for game in dict.fromkeys((*was, *mine)):
        if mine.get(game) == was.get(game):
            continue
        if other.get(game) not in (was.get(game), mine.get(game)):
            clashes.append(game)
        _put(now, game, mine)
    return Merged(text=timetable_of(now.values()), clashes=tuple(clashes))


def _put(
    now: dict[GameId, ListedGame], game: GameId, mine: Mapping[GameId, ListedGame]
) -> None:
    if game in mine:
        now[game] = mine[game]
    else:
        now.pop(game, None)
