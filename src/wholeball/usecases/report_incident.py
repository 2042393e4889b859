"""Writes down what somebody of the staff saw of an incident, and shows it to who may read it."""

from dataclasses import replace
from datetime import datetime

from wholeball.files.folder import read_folder
from wholeball.files.incident_reports import (
    IncidentReport,
    cleaned,
    new_report,
    read_reports,
    report_numbers,
)
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.reports.dates import moment
from wholeball.usecases.local_day import local
from wholeball.usecases.seal_entries import author_name


def report_incident(
    record: LeagueRecord, game: GameId, *, by: str, says: str, at: datetime
) -> IncidentReport:
    """Keep a report about a game as a private text; what was written before stays as it is.

    What the same person said of it in the same minute is kept once, however often it is sent.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: the name or the words do not do, or it cannot be kept.
    """
    with record.held():
        when = moment(local(read_folder(record), at))
        before = read_reports(record, game)
        report = IncidentReport(
            game=game,
            number=max(report_numbers(record, game), default=0) + 1,
            by=author_name(by),
            at=when,
            says=cleaned(says),
        )
        same = (one for one in before if replace(one, number=report.number) == report)
        kept = next(same, None)
        if kept is not None:
            return kept
        name, data = new_report(report)
        record.write({name: data}, private={name})
    return report


def incident_reports(
    record: LeagueRecord, game: GameId, *, own: str | None
) -> tuple[IncidentReport, ...]:
    """Return the reports about a game; of one person alone where `own` is their name.

    Raises:
        InputFaults: one of them cannot be read.
    """
    found = read_reports(record, game)
    return found if own is None else tuple(one for one in found if one.by == own)
