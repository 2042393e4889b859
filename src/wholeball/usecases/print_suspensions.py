"""Prints the suspensions of a season folder, for staff only."""

from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from wholeball.files.write import write_places
from wholeball.kernel.faults import Fault
from wholeball.league.record import LeagueRecord
from wholeball.reports.suspensions_pdf import Names, SuspensionsSheet, suspensions_pdf
from wholeball.usecases.print_booklet import Paper
from wholeball.usecases.season_people import on_rosters, people_of_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedSuspensions:
    """The file that was written, how many suspensions hold, and how often somebody is barred."""

    path: Path
    open: int
    barred: int
    remarks: tuple[Fault, ...]


def print_suspensions(
    record: LeagueRecord, *, on: date, paper: Paper, out: Path, printed: datetime
) -> PrintedSuspensions:
    """Write all suspensions as they stand on a day.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder, or the disk refuses.
    """
    read, found = people_of_folder(record, on)
    league = read.season.league
    sheet = SuspensionsSheet(
        league=league.name,
        found=found,
        names=Names(
            lines={
                person: [(line.team, line.name) for line in lines]
                for person, lines in on_rosters(read).items()
            }
        ),
        timetable=read.timetable,
    )
    local = printed.astimezone(ZoneInfo(league.timezone))
    made = suspensions_pdf(sheet, read.season.rulebook, printed=local, paper=paper.value)
    write_places({out.parent: {out.name: made}})
    return PrintedSuspensions(
        path=out,
        open=len(found.open),
        barred=sum(map(len, found.barred.values())),
        remarks=read.remarks,
    )
