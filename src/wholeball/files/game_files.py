"""Reads the files that a season's games are made of, and takes from them what the games come to."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

from wholeball.files.bracket import FILE as BRACKET_FILE
from wholeball.files.bracket import Brackets, read_brackets
from wholeball.files.editions import Books, Editions, read_editions
from wholeball.files.fields import FILE as FIELDS_FILE
from wholeball.files.fields import read_fields
from wholeball.files.game_results import FromGames, results_of_games
from wholeball.files.logs import Logs, read_logs, strays
from wholeball.files.open_games import bracket_doubts, too_early
from wholeball.files.reading import Reading
from wholeball.files.results import COLUMNS as RESULT_COLUMNS
from wholeball.files.results import FILE as RESULTS_FILE
from wholeball.files.results import Results, read_results
from wholeball.files.rosters import FILE as ROSTERS_FILE
from wholeball.files.rosters import cells_of_rosters, read_rosters
from wholeball.files.row_faults import Known, known_teams
from wholeball.files.rulings import FILE as RULINGS_FILE
from wholeball.files.rulings import cells_of_rulings, read_rulings
from wholeball.files.season_parts import idle_rulings, played_twice
from wholeball.files.sites import FILE as SITES_FILE
from wholeball.files.sites import read_sites
from wholeball.files.table import Table, read_table
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.files.timetable import Timetable, cells_of_timetable, read_timetable
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.league import League
from wholeball.league.place import Field, Site
from wholeball.league.player import Rosters
from wholeball.rulebook.book import Rulebook
from wholeball.season.filling import Filling
from wholeball.season.result import Result
from wholeball.season.ruled import as_ruled, holding
from wholeball.season.ruling import Ruling


@dataclass(frozen=True, slots=True, kw_only=True)
class GameFiles:
    """What the files say of games; `results` is None where results.csv cannot be read."""

    results: Results | None
    timetable: Timetable
    brackets: Brackets
    sites: tuple[Site, ...]
    fields: tuple[Field, ...]
    rosters: Rosters
    rulings: tuple[Ruling, ...]
    logs: Logs
    editions: Editions

    @property
    def games(self) -> tuple[str, ...]:
        """The games of the timetable and of results.csv."""
        return (*self.timetable.rows, *(() if self.results is None else self.results.rows))


class Played(NamedTuple):
    """What games came to, and the games of the timetable by whether their sides are known."""

    games: FromGames
    timetable: tuple[Fixture, ...]
    filling: Filling


def read_game_files(
    reading: Reading, league: League | None, book: Rulebook | None
) -> GameFiles:
    """Return what the files say of games; their faults go to the reading."""
    results = _results(reading, league, book)
    teams = None if league is None else known_teams(league)
    brackets: Brackets = {}
    if reading.has(BRACKET_FILE):
        brackets = reading.table(BRACKET_FILE, lambda data: read_brackets(data, teams)) or {}
    sites = reading.rows(SITES_FILE, read_sites)
    sites_known = reading.known((one.site for one in sites), SITES_FILE)
    fields = reading.rows(FIELDS_FILE, lambda data: read_fields(data, sites_known))
    drawn = bool(brackets) and not reading.is_wrong(BRACKET_FILE)
    names = reading.known((one.field for one in fields), FIELDS_FILE)
    timetable = _timetable(
        reading,
        league,
        results,
        brackets=brackets if drawn else None,
        fields=names if fields else None,
    )
    return GameFiles(
        results=results,
        timetable=timetable,
        brackets=brackets,
        sites=sites,
        fields=fields,
        rosters=_rosters(reading, league, book),
        rulings=_rulings(reading, league, (results, timetable), book),
        logs=_logs(reading, results, timetable),
        editions=read_editions(reading),
    )


def played(reading: Reading, files: GameFiles, book: Rulebook | None) -> Played | None:
    """Return what the games come to, or None where a fault of their files hides it.

    Results.csv says what the games come to that it lists.
    """
    results = files.results
    if results is None or book is None or _is_hidden(reading, files.logs):
        return None
    course = _Course(reading, files, results, Books(book, files.editions))
    filling = course.filling(course.stated())
    games = course.games(files.rulings, filling, files.timetable.known)
    rows = files.timetable.rows
    games.play_offs.sort(key=lambda one: rows[one.game])
    reading.faults += games.remarks
    reading.faults += too_early(filling, files.logs.by_game)
    reading.faults += bracket_doubts(filling, files.timetable, results.rows, files.rulings)
    ended = (*games.results, *games.deciders, *games.play_offs)
    reading.faults += idle_rulings(files.rulings, {*results.rows, *(one.game for one in ended)})
    known = (*files.timetable.known, *filling.filled.values())
    return Played(games, tuple(sorted(known, key=lambda one: rows[one.game])), filling)


@dataclass(frozen=True, slots=True)
class _Course:
    """Takes what a season's games come to, and who played those of the bracket."""

    reading: Reading
    files: GameFiles
    results: Results
    books: Books

    def filling(self, stated: Mapping[GameId, tuple[TeamId, TeamId]]) -> Filling:
        """Return the games of the bracket with open sides, before any result is taken."""
        files = self.files
        return Filling(fixtures=files.timetable.open, brackets=files.brackets, stated=stated)

    def games(
        self, rulings: Iterable[Ruling], filling: Filling, known: Iterable[Fixture]
    ) -> FromGames:
        """Return what the games come to by some rulings, the bracket filled as they do."""
        held = holding(rulings)
        given = [as_ruled(one, held.get(one.game)) for one in self.results.play_offs]

        def in_turn(play_offs: Sequence[Result]) -> Iterator[Fixture]:
            wave = [*known, *filling.take(given)]
            while wave:
                yield from (one for one in wave if one.game not in self.results.rows)
                wave = filling.take(play_offs)

        files = self.files
        return results_of_games(
            files.logs,
            in_turn,
            self.books,
            held,
            way=self.reading.record.way,
            rosters=files.rosters,
        )

    def stated(self) -> dict[GameId, tuple[TeamId, TeamId]]:
        """Return the sides that stand whatever is ruled: those that a row of results.csv states.

        Of a game with a log they are those that came to play it by the rulings up to its day.
        """
        files = self.files
        bracket = [one for one in files.timetable.known if one.stage == "play_off"]
        stated = {one.game: (one.home, one.away) for one in self.results.play_offs}
        ruled_on = {one.game for one in bracket} | {one.game for one in files.timetable.open}
        ruled = [one for one in files.rulings if one.game in ruled_on | stated.keys()]
        logged = (one for one in files.timetable.open if one.game in files.logs.by_game)
        for fixture in sorted(logged, key=lambda one: (one.day, one.start)):
            by_then = [one for one in ruled if one.day is not None and one.day <= fixture.day]
            if fixture.game not in stated and len(by_then) < len(ruled):
                filling = self.filling(stated)
                self.games(by_then, filling, bracket)
                found = filling.filled.get(fixture.game)
                stated |= {} if found is None else {found.game: (found.home, found.away)}
        return stated


def _is_hidden(reading: Reading, logs: Logs) -> bool:
    """Tell whether a file has a fault without which games might come to something else."""
    files = (RESULTS_FILE, TIMETABLE_FILE, RULINGS_FILE, BRACKET_FILE, TEAMS_FILE)
    return any(one.level == "fault" for one in logs.faults) or reading.is_wrong(*files)


def _results(reading: Reading, league: League | None, book: Rulebook | None) -> Results | None:
    """Return the results; where there is nothing to hold them to, look at the cells only."""
    if league is None or book is None:
        return reading.table(RESULTS_FILE, _cells_of_results)
    return reading.table(RESULTS_FILE, lambda data: read_results(data, league, book.ratings))


def _cells_of_results(data: bytes) -> tuple[None, Table]:
    return None, read_table(data, RESULT_COLUMNS, file=RESULTS_FILE)


def _timetable(
    reading: Reading,
    league: League | None,
    results: Results | None,
    *,
    brackets: Brackets | None,
    fields: Known | None,
) -> Timetable:
    if not reading.has(TIMETABLE_FILE):
        return Timetable()
    if league is None or results is None:
        reading.table(TIMETABLE_FILE, cells_of_timetable)
        return Timetable()
    listed = (*results.results, *results.deciders, *results.play_offs)
    found = reading.table(
        TIMETABLE_FILE,
        lambda data: read_timetable(
            data,
            league,
            listed,
            bracket_games=[one.game for one in results.play_offs],
            brackets=brackets,
            fields=fields,
        ),
    )
    return found or Timetable()


def _rosters(reading: Reading, league: League | None, book: Rulebook | None) -> Rosters:
    if not reading.has(ROSTERS_FILE):
        return {}
    if league is None or book is None:
        reading.table(ROSTERS_FILE, cells_of_rosters)
        return {}
    read = partial(read_rosters, league=league, rules=book.roster)
    return reading.table(ROSTERS_FILE, read) or {}


def _rulings(
    reading: Reading,
    league: League | None,
    listed: tuple[Results | None, Timetable],
    book: Rulebook | None,
) -> tuple[Ruling, ...]:
    results, timetable = listed
    if not reading.has(RULINGS_FILE):
        return ()
    if league is None or results is None:
        reading.table(RULINGS_FILE, cells_of_rulings)
        return ()
    games = [*map(str, timetable.rows), *map(str, results.rows)]
    known = None if reading.is_wrong(TIMETABLE_FILE, RESULTS_FILE) else games
    return (
        reading.table(RULINGS_FILE, lambda data: read_rulings(data, league, known, book)) or ()
    )


def _logs(reading: Reading, results: Results | None, timetable: Timetable) -> Logs:
    logs = read_logs(reading.record)
    reading.faults += logs.faults
    listed = () if results is None else results.rows
    reading.faults += strays(logs, timetable.rows, listed)
    if results is not None:
        reading.faults += played_twice(results, logs)
    return logs
