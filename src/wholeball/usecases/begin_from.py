"""Begins a season in the database by what somebody has: a folder, or a spreadsheet of teams."""

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path

from wholeball.files.folder_record import FolderRecord
from wholeball.league.record import LeagueRecord
from wholeball.store.models import Account, Organisation, Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.writing import Writer, alone
from wholeball.usecases.begin_season import begin_season, new_season
from wholeball.usecases.import_season import import_archive, import_season
from wholeball.usecases.take_teams import TeamsTaken, take_teams


def begin_from_archive(
    organisation: Organisation,
    *,
    name: str,
    data: bytes,
    file: str,
    by: Account,
    at: datetime,
) -> Season:
    """Return a new season with all that a ZIP archive of its folder holds.

    Raises:
        WholeballError: the name is taken, or something is wrong with the folder; nothing was kept.
    """
    return _begun(
        organisation, name, by, at, lambda record: import_archive(data, record, file=file)
    )


def begin_from_folder(
    organisation: Organisation, folder: Path, *, name: str, by: Account, at: datetime
) -> Season:
    """Return a new season with all that a folder of this machine holds.

    Raises:
        WholeballError: the name is taken, or something is wrong with the folder; nothing was kept.
    """
    given = FolderRecord(folder)
    return _begun(organisation, name, by, at, lambda record: import_season(given, record))


@alone()
def begin_with_teams(  # noqa: PLR0913 - what a season begins with
    organisation: Organisation,
    *,
    name: str,
    preset: str,
    timezone: str,
    first_day: date,
    data: bytes,
    file: str,
    by: Account,
    at: datetime,
) -> tuple[Season, TeamsTaken]:
    """Return a new season from a preset, with the teams of a CSV file or an `.xlsx` workbook.

    Raises:
        WholeballError: the name is taken, or something is wrong with the list; nothing was kept.
    """
    season = begin_season(
        organisation,
        name=name,
        preset=preset,
        timezone=timezone,
        first_day=first_day,
        by=by,
        at=at,
    )
    record = DatabaseRecord(season, Writer(account=by, at=at))
    return season, take_teams(record, data, file=file)


@alone()
def _begun(
    organisation: Organisation,
    name: str,
    by: Account,
    at: datetime,
    take_over: Callable[[LeagueRecord], object],
) -> Season:
    season = new_season(organisation, name)
    take_over(DatabaseRecord(season, Writer(account=by, at=at)))
    return season
