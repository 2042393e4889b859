"""Prints the scorecards of a night from a season folder."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.write import write_places
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.reports.scorecards import scorecards
from wholeball.reports.scorecards_pdf import scorecards_pdf
from wholeball.usecases.print_booklet import Paper


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """The file that was written, how many games it holds, and what is doubtful in the folder."""

    path: Path
    games: int
    remarks: tuple[Fault, ...]


def print_scorecards(
    record: LeagueRecord, *, night: date, paper: Paper, out: Path, printed: datetime
) -> Printed:
    """Write the scorecards of a night's games, in the order of start and field.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder, no game that night, or the disk refuses.
    """
    read = read_folder(record)
    games = of_night(read.timetable, night)
    if not games:
        raise no_game(read.timetable, record, night)
    made = night_scorecards(read, games, paper=paper, printed=printed)
    write_places({out.parent: {out.name: made}})
    return Printed(path=out, games=len(games), remarks=read.remarks)


def no_game(
    listed: Iterable[Fixture | OpenFixture], record: LeagueRecord, night: date
) -> WholeballError:
    """Return the refusal of a night on which there is no game to print."""
    return WholeballError(
        f"No game of {record.called('timetable.csv')} is on {night}.",
        fix=f"Nothing was written. {_nights(listed)}",
        code="no_game",
    )


def night_scorecards(
    read: SeasonFolder, games: tuple[Fixture, ...], *, paper: Paper, printed: datetime
) -> bytes:
    """Return the scorecards of some games of a season; `printed` is turned into its local time."""
    season = read.season
    cards = scorecards(games, season.league.teams, read.rosters)
    local = printed.astimezone(ZoneInfo(season.league.timezone))
    return scorecards_pdf(cards, season.rulebook, printed=local, paper=paper.value)


def _nights(listed: Iterable[Fixture | OpenFixture]) -> str:
    nights = sorted({game.day for game in listed})
    if not nights:
        return "List its games in timetable.csv."
    shown = ", ".join(map(str, nights[:MOST_NIGHTS]))
    more = f" and {len(nights) - MOST_NIGHTS} more" if len(nights) > MOST_NIGHTS else ""
    return f"It has games on: {shown}{more}."


MOST_NIGHTS: Final = 12
"""How many nights a refusal lists."""
