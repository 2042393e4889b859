"""Tells what is wrong with the games of a bracket once all that was played of it is known."""

from collections.abc import Collection, Iterator, Mapping
from typing import Final

from wholeball.files.game_log import log_name
from wholeball.files.results import FILE as RESULTS_FILE
from wholeball.files.rulings import FILE as RULINGS_FILE
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.files.timetable import Timetable
from wholeball.kernel.faults import Fault, Place, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import OpenFixture
from wholeball.season.filling import Filling, Nobody, Otherwise
from wholeball.season.result import How
from wholeball.season.ruling import Ruling

_NO_WINNER: Final[Mapping[How, str]] = {
    "double_forfeit": "was forfeited by both sides",
    "annulled": "is annulled",
}


def refuse_open(open_fixtures: Collection[OpenFixture], game: GameId) -> None:
    """Refuse a game whose sides are still to be known.

    Raises:
        WholeballError: it is one of those given.
    """
    for fixture in open_fixtures:
        if fixture.game == game:
            raise WholeballError(
                f"Game {game} is {fixture.home} v {fixture.away}, still to be known.",
                fix=f"Enter the games before it, or write its teams in {TIMETABLE_FILE}.",
                code="open_side",
            )


def too_early(filling: Filling, logs: Collection[str]) -> Iterator[Fault]:
    """Find the logs of games whose sides are still to be known."""
    for fixture in filling.still_open():
        if fixture.game in logs:
            says = f"game {fixture.game} is {fixture.home} v {fixture.away}, and has a log already."
            cure = f"Write the teams that play it in {TIMETABLE_FILE}, or take the log out."
            place = Place(file=log_name(fixture.game))
            yield Fault(code="contradiction", place=place, says=says, cure=cure)


def bracket_doubts(
    filling: Filling,
    timetable: Timetable,
    rows: Mapping[GameId, int],
    rulings: Collection[Ruling],
) -> Iterator[Fault]:
    """Doubt what in a bracket goes on to nobody, and what was written down otherwise.

    `rows` says where each game stands in results.csv.
    """
    for nobody in filling.nobody():
        yield _nobody(nobody, timetable)
    for fixture, team in filling.against_itself():
        says = f"game {fixture.game} would be {team} against itself: {fixture.home} v {fixture.away}."
        cure = "Mend the side that is wrong."
        yield _doubt("self", says, cure, timetable.rows[fixture.game])
    for other in filling.otherwise():
        yield _otherwise(other, rows)
    open_games = {one.game for one in filling.still_open()}
    for ruling in rulings:
        if ruling.game in open_games:
            says = f"ruling {ruling.number} is about game {ruling.game}, whose sides are still to be known."
            cure = f"It counts once they are; or write the teams in {TIMETABLE_FILE}."
            place = Place(file=RULINGS_FILE)
            yield Fault(code="open_side", place=place, says=says, cure=cure, level="doubt")


def _nobody(one: Nobody, timetable: Timetable) -> Fault:
    result = one.result
    why = _NO_WINNER.get(result.how, f"ended level at {result.home_goals}-{result.away_goals}")
    column = "home" if one.fixture.home == one.side else "away"
    says = f"{one.side} is nobody: game {result.game}, {result.home} v {result.away}, {why}."
    cure = f"Rule on game {result.game} in {RULINGS_FILE}, or write the team that plays here."
    return _doubt("no_winner", says, cure, timetable.rows[one.fixture.game], column)


def _otherwise(one: Otherwise, rows: Mapping[GameId, int]) -> Fault:
    game, stated, found = one.fixture.game, " v ".join(one.stated), " v ".join(one.found)
    if game not in rows:
        says = f"game {game} was played by {stated}; by a ruling since, it would be {found}."
        cure = f"It stays so. A ruling made before it has an earlier day in {RULINGS_FILE}."
        place = Place(file=log_name(game))
        return Fault(code="contradiction", place=place, says=says, cure=cure, level="doubt")
    return Fault(
        code="contradiction",
        place=Place(file=RESULTS_FILE, row=rows[game], column="home"),
        says=f"game {game} is {stated} here; by the draw and the games before it, it would be {found}.",
        cure="It stays as it was played; mend it if a name is wrong.",
        level="doubt",
    )


def _doubt(code: str, says: str, cure: str, row: int, column: str = "away") -> Fault:
    place = Place(file=TIMETABLE_FILE, row=row, column=column)
    return Fault(code=code, place=place, says=says, cure=cure, level="doubt")
