"""Shows what a season's sportsmanship ratings come to, and what they can tell."""

from dataclasses import dataclass

from wholeball.files.folder import read_folder
from wholeball.kernel.faults import Fault
from wholeball.league.record import LeagueRecord
from wholeball.season.raters import rated_in
from wholeball.season.ratings import SeasonRatings, opinions, season_ratings
from wholeball.season.severity import Severity, Untold, severity


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingsShown:
    """The league's name, its ratings, what the model says of them, and remarks on the folder.

    `severity` is None where it was not asked for.
    """

    league: str
    ratings: SeasonRatings
    severity: Severity | Untold | None
    remarks: tuple[Fault, ...]


def show_ratings(record: LeagueRecord, *, staff: bool) -> RatingsShown:
    """Return a season's ratings; with `staff` what they tell of teams and officials besides.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder.
    """
    read = read_folder(record)
    season = read.season
    rated = rated_in(read.sheets, read.crews, season.rulebook.crew.roles)
    told = None
    if staff and season.rulebook.ratings.by != "nobody":
        teams = [one.team for one in season.league.teams]
        told = severity(opinions(season, rated), teams)
    return RatingsShown(
        league=season.league.name,
        ratings=season_ratings(season, rated),
        severity=told,
        remarks=read.remarks,
    )
