"""Doubts officials who are on the roster of a team that plays: in their own game, or at its start."""

from collections.abc import Iterator

from wholeball.files.crews import FILE as CREWS_FILE
from wholeball.files.folder import SeasonFolder
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId, PersonId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.player import person_of
from wholeball.reports.person_words import article_name


def crew_doubts(read: SeasonFolder) -> Iterator[Fault]:
    """Doubt each official of a game whom a team of theirs needs elsewhere, or on both sides of it."""
    games = {one.game: one for one in read.timetable}
    persons = {one.official: one.person for one in read.officials}
    teams = _teams(read)
    article = article_name("crew", read.season.rulebook)
    for on in read.crews:
        person = persons.get(on.official)
        fixture = games.get(on.game)
        own = frozenset[TeamId]() if person is None else teams.get(person, frozenset())
        if fixture is None:
            continue
        for team in sorted(own & {fixture.home, fixture.away}):
            says = f"{on.official} works game {on.game} and is on the roster of {team}"
            yield _doubt("own_team", f"{says}, which plays it ({article}).", on.game)
        for other in _at_its_start(read, fixture) if on.day is None else ():
            for team in sorted(own & {other.home, other.away}):
                says = f"{on.official} works game {on.game} and is on the roster of {team}"
                says += f", which plays game {other.game} at the same start."
                yield _doubt("same_start", says, on.game)


def _teams(read: SeasonFolder) -> dict[PersonId, frozenset[TeamId]]:
    found: dict[PersonId, frozenset[TeamId]] = {}
    for team, players in read.rosters.items():
        for one in players:
            person = person_of(team, one)
            found[person] = found.get(person, frozenset()) | {team}
    return found


def _at_its_start(read: SeasonFolder, game: Fixture) -> Iterator[Fixture]:
    for one in read.timetable:
        if one.game != game.game and (one.day, one.start) == (game.day, game.start):
            yield one


def _doubt(code: str, says: str, game: GameId) -> Fault:
    return Fault(
        code=code,
        place=Place(file=CREWS_FILE),
        says=says,
        value=str(game),
        cure="Give the game to another official.",
        level="doubt",
    )
