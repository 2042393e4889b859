"""Reads a season folder: all of it, or every fault of every file in it."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Final, TypeVar

from wholeball.files.published import FILE as PUBLISHED_FILE
from wholeball.files.published import read_published
from wholeball.files.results import Results, read_results
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.files.season_toml import SeasonEntry, read_season_toml
from wholeball.files.table import Table
from wholeball.files.teams import read_teams
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.league import League, Team
from wholeball.rulebook.load import Loaded, load
from wholeball.season.count import Deduction
from wholeball.season.published import PublishedLine
from wholeball.season.season import Season
from wholeball.season.tally import Lots, OutsideFigures

RULEBOOK_FILE: Final = "rulebook.toml"
FILES: Final = (SEASON_FILE, RULEBOOK_FILE, "teams.csv", "results.csv")
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonFolder:
    """A season as its folder states it, and what in it is doubtful or worth a note.

    `published` is a table that somebody else published; empty where the folder has none.
    """

    season: Season
    published: tuple[PublishedLine, ...]
    remarks: tuple[Fault, ...]


def read_folder(folder: Path) -> SeasonFolder:
    """Return the season that a folder holds.

    Raises:
        InputFaults: every fault of every file; nothing of the folder was taken.
        WholeballError: there is no such folder.
    """
    if not folder.is_dir():
        raise WholeballError(
            f"{folder} is no folder.", fix=f"Make one with: wholeball new {folder}", code="path"
        )
    return _Reading(folder).season_folder()


class _Reading:
    """Reads one folder and gathers faults until all files have been seen."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._faults: list[Fault] = []

    def season_folder(self) -> SeasonFolder:
        entry = self._try(SEASON_FILE, read_season_toml)
        loaded = self._try(RULEBOOK_FILE, lambda data: load(data, file=RULEBOOK_FILE))
        teams = self._table("teams.csv", read_teams)
        league = _league(entry, teams) if entry is not None and teams is not None else None
        if entry is not None and league is not None:
            self._faults += _unknown_teams(entry, league)
        if entry is not None and loaded is not None:
            self._faults += _idle_lots(entry, loaded)
        results = self._results(league, loaded)
        published = self._published(league)
        faults = [fault for fault in self._faults if fault.level == "fault"]
        if faults or entry is None or league is None or loaded is None or results is None:
            raise InputFaults(faults)
        remarks = (*loaded.remarks, *self._faults)
        season = _season(entry, league, loaded, results)
        return SeasonFolder(season=season, published=published, remarks=remarks)

    def _results(self, league: League | None, loaded: Loaded | None) -> Results | None:
        if league is None or loaded is None:
            return None
        return self._table(
            "results.csv", lambda data: read_results(data, league, loaded.rulebook.ratings)
        )

    def _published(self, league: League | None) -> tuple[PublishedLine, ...]:
        if league is None or not (self._folder / PUBLISHED_FILE).exists():
            return ()
        return self._table(PUBLISHED_FILE, lambda data: read_published(data, league)) or ()

    def _try(self, name: str, read: Callable[[bytes], _T]) -> _T | None:
        path = self._folder / name
        try:
            return read(path.read_bytes())
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
        self._faults.extend(table.faults)
        return values


def _league(entry: SeasonEntry, teams: tuple[Team, ...]) -> League:
    return League(
        name=entry.name,
        timezone=entry.timezone,
        first_day=entry.first_day,
        last_day=entry.last_day,
        teams=teams,
    )


def _unknown_teams(entry: SeasonEntry, league: League) -> list[Fault]:
    known = [str(team.team) for team in league.teams]
    named = [("deductions", one.team) for one in entry.deductions]
    named += [("lots", team) for lots in entry.lots for team in lots.order]
    named += [("outside_ranking", team) for team in entry.outside_ranking]
    named += [("discipline_points", team) for team in entry.discipline_points]
    return [
        Fault(
            code="unknown_team",
            place=Place(file=SEASON_FILE, article=key),
            says=f"{key} names {team!r}, which is no team of teams.csv.",
            value=team,
            allowed=", ".join(known),
            cure=did_you_mean(team, known),
        )
        for key, team in named
        if team not in known
    ]


def _idle_lots(entry: SeasonEntry, loaded: Loaded) -> list[Fault]:
    last_resort = loaded.rulebook.standings.last_resort
    if not entry.lots or last_resort == "lots":
        return []
    fault = Fault(
        code="contradiction",
        place=Place(file=SEASON_FILE, article="lots"),
        says=f"lots are given, but [standings] last_resort is {last_resort}.",
        value=entry.lots[0].label,
        allowed="lots only where they decide",
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
