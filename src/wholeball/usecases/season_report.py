"""Reports on a season folder: as values, and as a page with tables for other programs."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final, get_args
from zoneinfo import ZoneInfo

from wholeball.files.exports import Format, exported
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.write import write_places
from wholeball.kernel.faults import Fault
from wholeball.league.record import LeagueRecord
from wholeball.reports.season_report import SeasonReport, report_page, report_tables
from wholeball.reports.shell import Link, Shell
from wholeball.reports.shipped import assets
from wholeball.season.participation import participation

PAGE: Final = "season-report.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reported:
    """A season's report, the files that were written, and remarks on the folder."""

    report: SeasonReport
    files: tuple[Path, ...]
    remarks: tuple[Fault, ...]


def season_report(record: LeagueRecord, *, out: Path | None, printed: datetime) -> Reported:
    """Return a season's report; with `out`, write it there as a page, CSV and XLSX.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder, or the disk refuses.
    """
    read = read_folder(record)
    season = read.season
    report = SeasonReport(
        league=season.league.name,
        found=participation(season, read.timetable, read.sheets, read.rosters),
    )
    names: tuple[str, ...] = ()
    if out is not None:
        files = {PAGE: _page(report, read, printed).encode(), **_tables(report)}
        write_places({out: {**files, **assets()}})
        names = tuple(files)
    return Reported(
        report=report,
        files=tuple(Path(out or "") / name for name in names),
        remarks=read.remarks,
    )


def _page(report: SeasonReport, read: SeasonFolder, printed: datetime) -> str:
    season = read.season
    shell = Shell(
        links=(Link(label="Season report", href=PAGE),),
        rulebook=season.rulebook.head.name,
        digest=season.rulebook.digest,
        printed=printed.astimezone(ZoneInfo(season.league.timezone)),
    )
    return report_page(report, shell=shell, here=PAGE)


def _tables(report: SeasonReport) -> dict[str, bytes]:
    return {
        f"{name}.{kind}": exported(table, kind)
        for name, table in report_tables(report).items()
        for kind in _KINDS
    }


_KINDS: Final[tuple[Format, ...]] = get_args(Format)
