"""Makes papers as PDF: the packet of a night, the scorecards, the suspensions, the booklet.

Where no paper is named, each is laid out for the one that is usual where the season is played.
"""

from datetime import date, datetime

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.reports.booklet_pdf import booklet_pdf
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.field_svg import field_svg
from wholeball.reports.night_packet_pdf import night_packet_pdf
from wholeball.reports.suspensions_pdf import Names, SuspensionsSheet, suspensions_pdf
from wholeball.usecases.local_day import local
from wholeball.usecases.print_booklet import Paper
from wholeball.usecases.print_packet import night_of
from wholeball.usecases.print_scorecards import night_scorecards, no_game
from wholeball.usecases.season_people import discipline_of, on_rosters
from wholeball.usecases.usual_paper import usual_paper


def packet(
    record: LeagueRecord, night: date, *, paper: Paper | None, printed: datetime
) -> bytes:
    """Return all that goes to the field on paper; for staff only.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season, or no game that night.
    """
    read = read_folder(record)
    _refuse_empty(read, record, night, (*read.timetable, *read.open_fixtures))
    now = local(read, printed)
    told = night_of(read, night, on=now.date())
    return night_packet_pdf(
        told, read.season.rulebook, printed=now, paper=(paper or usual_paper(read)).value
    )


def scorecards(
    record: LeagueRecord, night: date, *, paper: Paper | None, printed: datetime
) -> bytes:
    """Return the scorecards of a night.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season, or no game that night whose sides are known.
    """
    read = read_folder(record)
    _refuse_empty(read, record, night, read.timetable)
    games = of_night(read.timetable, night)
    return night_scorecards(read, games, paper=paper or usual_paper(read), printed=printed)


def suspensions(record: LeagueRecord, *, paper: Paper | None, printed: datetime) -> bytes:
    """Return all suspensions as they stand; for staff only.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    now = local(read, printed)
    sheet = SuspensionsSheet(
        league=read.season.league.name,
        found=discipline_of(read, now.date()),
        names=names_of(read),
        timetable=read.timetable,
    )
    return suspensions_pdf(
        sheet, read.season.rulebook, printed=now, paper=(paper or usual_paper(read)).value
    )


def rulebook_booklet(record: LeagueRecord, *, paper: Paper | None, printed: datetime) -> bytes:
    """Return the house rules as a booklet.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    book = read.season.rulebook
    field = field_svg(field_plan(book), book.field.unit)
    laid_out = paper or usual_paper(read)
    return booklet_pdf(book, field=field, printed=local(read, printed), paper=laid_out.value)


def names_of(read: SeasonFolder) -> Names:
    """Return who each person is by the rosters that list them."""
    return Names(
        lines={
            person: [(line.team, line.name) for line in lines]
            for person, lines in on_rosters(read).items()
        }
    )


def _refuse_empty(
    read: SeasonFolder,
    record: LeagueRecord,
    night: date,
    listed: tuple[Fixture | OpenFixture, ...],
) -> None:
    if not of_night(listed, night):
        raise no_game((*read.timetable, *read.open_fixtures), record, night)
