"""Reads a season folder: all of it, or every fault of every file in it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, TypeVar

from wholeball.files.bounded import is_there, read_at_most
from wholeball.files.game_results import (
    FromGames,
    Logs,
    read_logs,
    results_of_games,
    strays,
)
from wholeball.files.published import FILE as PUBLISHED_FILE
from wholeball.files.published import read_published
from wholeball.files.results import COLUMNS as RESULT_COLUMNS
from wholeball.files.results import FILE as RESULTS_FILE
from wholeball.files.results import Results, read_results
from wholeball.files.rosters import FILE as ROSTERS_FILE
from wholeball.files.rosters import cells_of_rosters, read_rosters
from wholeball.files.rulings import FILE as RULINGS_FILE
from wholeball.files.rulings import cells_of_rulings, read_rulings
from wholeball.files.season_parts import (
    idle_lots,
    idle_rulings,
    league_of,
    played_twice,
    season_of,
    unknown_teams,
)
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.files.season_toml import read_season_toml
from wholeball.files.table import MOST_BYTES, Table, read_table
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.files.teams import read_teams
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.files.timetable import cells_of_timetable, read_timetable
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture
from wholeball.league.league import League
from wholeball.league.player import Rosters
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import Loaded, load
from wholeball.season.appearances import GameSheet, sheet_of_result
from wholeball.season.published import PublishedLine
from wholeball.season.ruled import holding
from wholeball.season.ruling import Ruling
from wholeball.season.season import Season

RULEBOOK_FILE: Final = "rulebook.toml"
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonFolder:
    """A season as its folder states it, and what in it is doubtful or worth a note.

    `rows` says where each game stands in results.csv, and `sheets` what each game of the timetable
    that has begun says of people. `published` is a table that somebody else
    published; it, the timetable and the rosters are empty where the folder has none.
    """

    season: Season
    published: tuple[PublishedLine, ...]
    remarks: tuple[Fault, ...]
    timetable: tuple[Fixture, ...] = ()
    rosters: Rosters = field(default_factory=dict)
    rows: Mapping[GameId, int] = field(default_factory=dict)
    sheets: tuple[GameSheet, ...] = ()


def read_folder(folder: Path, *, instead: Mapping[str, bytes] | None = None) -> SeasonFolder:
    """Return the season that a folder holds, with some of its files read otherwise.

    `instead` has what a file would hold after a change that is only being tried.

    Raises:
        InputFaults: every fault of every file; nothing of the folder was taken.
        WholeballError: there is no such folder.
    """
    if is_there(folder) and folder.is_file():
        raise _no_file(folder)
    if not is_there(folder) or not folder.is_dir():
        raise WholeballError(
            f"{folder} is no folder.", fix=f"Make one with: wholeball new {folder}", code="path"
        )
    return _Reading(folder, instead or {}).season_folder()


def _no_file(file: Path) -> WholeballError:
    is_of_season = is_there(file.parent / SEASON_FILE)
    cure = (
        f"Name its folder: {file.parent}"
        if is_of_season
        else "Name the folder that holds the season's files."
    )
    return WholeballError(
        f"{file} is a file; a season folder is wanted.", fix=cure, code="path"
    )


class _Reading:
    """Reads one folder and gathers faults until all files have been seen."""

    def __init__(self, folder: Path, instead: Mapping[str, bytes]) -> None:
        self._folder = folder
        self._instead = instead
        self._faults: list[Fault] = []

    def season_folder(self) -> SeasonFolder:
        said = self._try(SEASON_FILE, read_season_toml)
        entry = said.entry if said is not None else None
        loaded = self._try(RULEBOOK_FILE, lambda data: load(data, file=RULEBOOK_FILE))
        teams = self._table(TEAMS_FILE, read_teams)
        league = league_of(entry, teams) if entry is not None and teams is not None else None
        if said is not None and league is not None:
            self._faults += unknown_teams(said, league)
        if said is not None and loaded is not None:
            self._faults += idle_lots(said, loaded)
        results = self._results(league, loaded)
        published = self._published(league)
        timetable = self._timetable(league, results)
        rosters = self._rosters(league, loaded)
        rulings = self._rulings(league, results, timetable, loaded)
        logs = self._logs(results, timetable)
        faults = [fault for fault in self._faults if fault.level == "fault"]
        if faults or entry is None or league is None or loaded is None or results is None:
            raise InputFaults(faults)
        book = loaded.rulebook
        games = self._games(logs, timetable, book, rulings, results, rosters)
        season = season_of(entry, league, book, plain=results, games=games, rulings=rulings)
        return SeasonFolder(
            season=season,
            published=published,
            remarks=(*loaded.remarks, *self._faults),
            timetable=timetable,
            rosters=rosters,
            rows=results.rows,
            sheets=(*_plain_sheets(season, timetable, results), *games.sheets),
        )

    def _results(self, league: League | None, loaded: Loaded | None) -> Results | None:
        """Return the results; where there is nothing to hold them to, look at the cells only."""
        if league is None or loaded is None:
            return self._table(RESULTS_FILE, _cells_of_results)
        return self._table(
            RESULTS_FILE, lambda data: read_results(data, league, loaded.rulebook.ratings)
        )

    def _published(self, league: League | None) -> tuple[PublishedLine, ...]:
        if league is None or not is_there(self._folder / PUBLISHED_FILE):
            return ()
        return self._table(PUBLISHED_FILE, lambda data: read_published(data, league)) or ()

    def _timetable(self, league: League | None, results: Results | None) -> tuple[Fixture, ...]:
        if not is_there(self._folder / TIMETABLE_FILE):
            return ()
        if league is None or results is None:
            self._table(TIMETABLE_FILE, cells_of_timetable)
            return ()
        played = (*results.results, *results.deciders, *results.play_offs)
        return (
            self._table(TIMETABLE_FILE, lambda data: read_timetable(data, league, played)) or ()
        )

    def _rosters(self, league: League | None, loaded: Loaded | None) -> Rosters:
        if not is_there(self._folder / ROSTERS_FILE):
            return {}
        if league is None or loaded is None:
            self._table(ROSTERS_FILE, cells_of_rosters)
            return {}
        rules = loaded.rulebook.roster
        return self._table(ROSTERS_FILE, lambda data: read_rosters(data, league, rules)) or {}

    def _rulings(
        self,
        league: League | None,
        results: Results | None,
        timetable: tuple[Fixture, ...],
        loaded: Loaded | None,
    ) -> tuple[Ruling, ...]:
        if not self._has(RULINGS_FILE):
            return ()
        if league is None or results is None:
            self._table(RULINGS_FILE, cells_of_rulings)
            return ()
        games = [*(str(one.game) for one in timetable), *map(str, results.rows)]
        known = None if self._is_wrong(TIMETABLE_FILE, RESULTS_FILE) else games
        book = None if loaded is None else loaded.rulebook
        return (
            self._table(RULINGS_FILE, lambda data: read_rulings(data, league, known, book))
            or ()
        )

    def _logs(self, results: Results | None, timetable: tuple[Fixture, ...]) -> Logs:
        logs = read_logs(self._folder)
        self._faults += logs.faults
        listed = () if results is None else results.rows
        self._faults += strays(logs, timetable, listed)
        if results is not None:
            self._faults += played_twice(results, logs)
        return logs

    def _games(
        self,
        logs: Logs,
        timetable: tuple[Fixture, ...],
        book: Rulebook,
        rulings: tuple[Ruling, ...],
        results: Results,
        rosters: Rosters,
    ) -> FromGames:
        """Return what the games come to that results.csv does not list."""
        to_come = [fixture for fixture in timetable if fixture.game not in results.rows]
        games = results_of_games(
            logs, to_come, book, holding(rulings), folder=self._folder, rosters=rosters
        )
        self._faults += games.remarks
        ended = (*games.results, *games.deciders, *games.play_offs)
        played = {*results.rows, *(one.game for one in ended)}
        self._faults += idle_rulings(rulings, played)
        return games

    def _has(self, name: str) -> bool:
        return name in self._instead or is_there(self._folder / name)

    def _is_wrong(self, *files: str) -> bool:
        return any(one.level == "fault" and one.place.file in files for one in self._faults)

    def _try(self, name: str, read: Callable[[bytes], _T]) -> _T | None:
        path = self._folder / name
        try:
            given = self._instead.get(name)
            return read(read_at_most(path, MOST_BYTES) if given is None else given)
        except InputFaults as refused:
            self._faults.extend(refused.faults)
        except OSError as error:
            cure = f"Write it, or start from a preset: wholeball new {self._folder}"
            says = f"the file cannot be read: {error.strerror}."
            self._faults.append(
                Fault(code="missing_file", place=Place(file=name), says=says, cure=cure)
            )
        return None

    def _table(self, name: str, read: Callable[[bytes], tuple[_T, Table]]) -> _T | None:
        both = self._try(name, read)
        if both is None:
            return None
        values, table = both
        self._faults.extend(sorted(table.faults, key=lambda fault: fault.place.row or 0))
        return values


def _cells_of_results(data: bytes) -> tuple[None, Table]:
    return None, read_table(data, RESULT_COLUMNS, file=RESULTS_FILE)


def _plain_sheets(
    season: Season, timetable: tuple[Fixture, ...], plain: Results
) -> Iterator[GameSheet]:
    """Yield the sheets of the games whose result stands in results.csv, as ruled."""
    fixtures = {fixture.game: fixture for fixture in timetable}
    for result in (*season.results, *season.outside.play_offs, *season.play_offs):
        if result.game in plain.rows and result.game in fixtures:
            yield sheet_of_result(fixtures[result.game], result)
