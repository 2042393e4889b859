"""Finds the games that are planned or were played by the draw of brackets."""

from collections.abc import Collection, Iterator

from wholeball.files.folder import SeasonFolder
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Seeded


def drawn_games(read: SeasonFolder, brackets: Collection[str]) -> tuple[GameId, ...]:
    """Return the play-off games that rest on the draw of some brackets, each once."""
    return tuple(dict.fromkeys(_games(read, brackets)))


def _games(read: SeasonFolder, brackets: Collection[str]) -> Iterator[GameId]:
    teams = {team for name in brackets for team in read.brackets.get(name, ())}
    for one in read.timetable:
        if one.stage == "play_off" and teams & {one.home, one.away}:
            yield one.game
    for fixture in read.open_fixtures:
        sides = (fixture.home, fixture.away)
        if any(isinstance(side, Seeded) and side.bracket in brackets for side in sides):
            yield fixture.game
    for result in read.season.play_offs:
        if teams & {result.home, result.away}:
            yield result.game
