"""Reads a season folder: all of it, or every fault of every file in it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final, TypeVar

from wholeball.files.bounded import is_there, read_at_most
from wholeball.files.published import FILE as PUBLISHED_FILE
from wholeball.files.published import read_published
from wholeball.files.results import COLUMNS as RESULT_COLUMNS
from wholeball.files.results import FILE as RESULTS_FILE
from wholeball.files.results import Results, read_results
from wholeball.files.rosters import FILE as ROSTERS_FILE
from wholeball.files.rosters import cells_of_rosters, read_rosters
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.files.season_toml import SeasonEntry, SeasonToml, read_season_toml
from wholeball.files.table import MOST_BYTES, Table, read_table
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.files.teams import read_teams
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.files.timetable import cells_of_timetable, read_timetable
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.kernel.lines import Loc
from wholeball.kernel.nearest import choices, did_you_mean
from wholeball.kernel.refusals import toml_text
from wholeball.league.fixture import Fixture
from wholeball.league.league import League, Team
from wholeball.league.player import Rosters
from wholeball.rulebook.load import Loaded, load
from wholeball.season.count import Deduction
from wholeball.season.published import PublishedLine
from wholeball.season.season import Season
from wholeball.season.tally import Lots, OutsideFigures

RULEBOOK_FILE: Final = "rulebook.toml"
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonFolder:
    """A season as its folder states it, and what in it is doubtful or worth a note.

    `published` is a table that somebody else published; it, the timetable and the rosters are
    empty where the folder has none.
    """

    season: Season
    published: tuple[PublishedLine, ...]
    remarks: tuple[Fault, ...]
    timetable: tuple[Fixture, ...] = ()
    rosters: Rosters = field(default_factory=dict)


def read_folder(folder: Path) -> SeasonFolder:
    """Return the season that a folder holds.

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
    return _Reading(folder).season_folder()


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

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._faults: list[Fault] = []

    def season_folder(self) -> SeasonFolder:
        said = self._try(SEASON_FILE, read_season_toml)
        entry = said.entry if said is not None else None
        loaded = self._try(RULEBOOK_FILE, lambda data: load(data, file=RULEBOOK_FILE))
        teams = self._table(TEAMS_FILE, read_teams)
        league = _league(entry, teams) if entry is not None and teams is not None else None
        if said is not None and league is not None:
            self._faults += _unknown_teams(said, league)
        if said is not None and loaded is not None:
            self._faults += _idle_lots(said, loaded)
        results = self._results(league, loaded)
        published = self._published(league)
        timetable = self._timetable(league, results)
        rosters = self._rosters(league, loaded)
        faults = [fault for fault in self._faults if fault.level == "fault"]
        if faults or entry is None or league is None or loaded is None or results is None:
            raise InputFaults(faults)
        remarks = (*loaded.remarks, *self._faults)
        season = _season(entry, league, loaded, results)
        return SeasonFolder(
            season=season,
            published=published,
            remarks=remarks,
            timetable=timetable,
            rosters=rosters,
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
        played = (*results.results, *results.play_offs)
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

    def _try(self, name: str, read: Callable[[bytes], _T]) -> _T | None:
        path = self._folder / name
        try:
            return read(read_at_most(path, MOST_BYTES))
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


def _league(entry: SeasonEntry, teams: tuple[Team, ...]) -> League:
    return League(
        name=entry.name,
        timezone=entry.timezone,
        first_day=entry.first_day,
        last_day=entry.last_day,
        teams=teams,
    )


def _unknown_teams(said: SeasonToml, league: League) -> list[Fault]:
    known = {str(team.team): None for team in league.teams}
    return [
        Fault(
            code="unknown_team",
            place=replace(said.source.place(loc), article=str(loc[0])),
            says=f"{loc[0]} names {toml_text(team)}, which is no team of {TEAMS_FILE}.",
            value=team,
            allowed=choices(known),
            cure=did_you_mean(team, known),
        )
        for loc, team in _named_teams(said.entry)
        if team not in known
    ]


def _named_teams(entry: SeasonEntry) -> Iterator[tuple[Loc, str]]:
    for index, deduction in enumerate(entry.deductions):
        yield ("deductions", index, "team"), deduction.team
    for index, lots in enumerate(entry.lots):
        for at, team in enumerate(lots.order):
            yield ("lots", index, "order", at), team
    for index, team in enumerate(entry.outside_ranking):
        yield ("outside_ranking", index), team
    for team in entry.discipline_points:
        yield ("discipline_points", team), team


def _idle_lots(said: SeasonToml, loaded: Loaded) -> list[Fault]:
    lots, last_resort = said.entry.lots, loaded.rulebook.standings.last_resort
    if not lots or last_resort in ("lots", "coordinator"):
        return []
    fault = Fault(
        code="contradiction",
        place=replace(said.source.place(("lots",)), article="lots"),
        says=f"lots are given, but [standings] last_resort is {last_resort}.",
        value=lots[0].label,
        allowed="an order only where lots or the coordinator decide",
        cure='Take the lots out, or write last_resort = "lots" in rulebook.toml.',
    )
    return [fault]


def _season(entry: SeasonEntry, league: League, loaded: Loaded, results: Results) -> Season:
    return Season(
        league=league,
        rulebook=loaded.rulebook,
        results=tuple(results.results),
        source=entry.source,
        deductions=tuple(
            Deduction(
                team=TeamId(one.team),
                points=one.points,
                why=one.why,
                ref=one.ref,
                round=one.round,
            )
            for one in entry.deductions
        ),
        outside=_outside(entry, results),
        days=results.days,
        notes=results.notes,
    )


def _outside(entry: SeasonEntry, results: Results) -> OutsideFigures:
    ranked = enumerate(entry.outside_ranking, start=1)
    return OutsideFigures(
        ranking={TeamId(team): position for position, team in ranked},
        discipline_points={
            TeamId(team): points for team, points in entry.discipline_points.items()
        },
        play_offs=tuple(results.play_offs),
        lots=tuple(
            Lots(label=one.label, order=tuple(map(TeamId, one.order))) for one in entry.lots
        ),
    )
