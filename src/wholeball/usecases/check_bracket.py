"""Holds the play-offs that a timetable lists to the brackets as they were drawn."""

from collections.abc import Iterator, Mapping
from typing import Final, TypeAlias

from wholeball.files.folder import SeasonFolder
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, OpenSide, Seeded
from wholeball.league.record import LeagueRecord
from wholeball.season.bracket import MOST, BracketGame, bracket, listed
from wholeball.season.bracket_parts import Part, parted
from wholeball.season.bracket_run import run

Origin: TypeAlias = tuple[object, ...]
"""Where a side comes from: a seed of a bracket, or the winner or loser of a game by its sides."""
Sides: TypeAlias = frozenset[Origin]
_UNKNOWN: Final[Sides] = frozenset()


def bracket_remarks(read: SeasonFolder, record: LeagueRecord) -> Iterator[Fault]:
    """Doubt each play-off of the timetable that is no game of its bracket as it was drawn.

    Games of brackets that are not drawn yet, and those that a doubted game feeds, are left
    alone. So is a game in which a known team waits for one that is still to come.
    """
    drawn = _Drawn(read)
    if not drawn.games:
        return
    known = [one for one in read.timetable if one.stage == "play_off"]
    for fixture in known:
        if drawn.concerns(fixture.home, fixture.away):
            if not drawn.of_teams(fixture.home, fixture.away):
                yield _doubt(fixture.game, fixture.home, fixture.away, record)
            drawn.names[fixture.game] = drawn.of_teams(fixture.home, fixture.away)
    for game in listed(read.open_fixtures):
        sides = drawn.of_sides(game)
        if sides and sides not in drawn.games:
            yield _doubt(game.game, game.home, game.away, record)
            sides = _UNKNOWN
        drawn.names[game.game] = sides


def _doubt(
    game: GameId, home: TeamId | OpenSide, away: TeamId | OpenSide, record: LeagueRecord
) -> Fault:
    return Fault(
        code="contradiction",
        place=Place(file=TIMETABLE_FILE),
        says=f"game {game}, {home} v {away}, is no game of the bracket as drawn.",
        value=str(game),
        cure=f"Mend its sides, or compare the bracket: {record.way('bracket')}",
        level="doubt",
    )


class _Drawn:
    """The games of all drawn brackets by their sides; `names` are the timetable's for them."""

    def __init__(self, read: SeasonFolder) -> None:
        self.games: set[Sides] = set()
        self.names: dict[GameId, Sides] = {}
        self._brackets = read.brackets
        self._teams: set[TeamId] = set()
        self._by_teams: dict[frozenset[TeamId], Sides] = {}
        for part in parted(read.season):
            teams = read.brackets.get(part.bracket, ())
            if 2 <= len(teams) <= MOST:
                self._take(part, teams)

    def _take(self, part: Part, teams: tuple[TeamId, ...]) -> None:
        third = part.season.rulebook.play_offs.third_place
        games = bracket(len(teams), third_place=third, prefix=part.prefix)
        names: dict[GameId, Sides] = {}
        for line in run(games, dict(enumerate(teams, start=1)), part.season.play_offs):
            sides = _sides(line.game, names, part.bracket)
            names[line.game.game] = sides
            self.games.add(sides)
            if line.home is not None and line.away is not None:
                self._by_teams[frozenset((line.home, line.away))] = sides
        self._teams.update(teams)

    def concerns(self, *teams: TeamId) -> bool:
        """Tell whether a game of these teams is one of a bracket that was drawn."""
        return not self._teams.isdisjoint(teams)

    def of_teams(self, home: TeamId, away: TeamId) -> Sides:
        """Return the sides of the game in which two teams meet; nothing where they do not."""
        return self._by_teams.get(frozenset((home, away)), _UNKNOWN)

    def of_sides(self, game: BracketGame) -> Sides:
        """Return the sides of a listed game; nothing where its bracket is not drawn."""
        seeds = [one for one in (game.home, game.away) if isinstance(one, Seeded)]
        if any(one.bracket not in self._brackets for one in seeds):
            return _UNKNOWN
        return _sides(game, self.names, "")


def _sides(game: BracketGame, names: Mapping[GameId, Sides], bracket_name: str) -> Sides:
    """Return both sides by where they come from; nothing where that of one is not known."""
    found: list[Origin] = []
    for side in (game.home, game.away):
        match side:
            case Seeded(seed=seed, bracket=named):
                found.append(("seed", seed, named or bracket_name))
            case From(game=earlier, takes=takes) if names.get(earlier):
                found.append((takes, names[earlier]))
            case _:
                return _UNKNOWN
    return frozenset(found)
