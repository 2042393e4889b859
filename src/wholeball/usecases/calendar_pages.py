"""Lays out the pages of a season's calendar: all weeks, each team, each field, and the PDFs."""

from datetime import datetime
from typing import Final

from wholeball.files.folder import SeasonFolder
from wholeball.kernel.identity import GameId
from wholeball.planning.problem import Slot
from wholeball.reports.calendar import Ended, entries
from wholeball.reports.calendar_page import Calendar, calendar_page, field_list_page, team_page
from wholeball.reports.calendar_pdf import calendar_pdf
from wholeball.reports.not_as_played import as_awarded
from wholeball.reports.shell import Link, Shell
from wholeball.season.filling import winner_of
from wholeball.season.season import Season, regulation

CALENDAR: Final = "calendar.html"
LINK: Final = Link(label="Calendar", href=CALENDAR)


def has_calendar(read: SeasonFolder) -> bool:
    """Tell whether a season has a timetable to show."""
    return bool(read.timetable or read.open_fixtures)


def calendar_pages(read: SeasonFolder, shell: Shell) -> dict[str, bytes]:
    """Return the pages and the PDFs by the names of their files; none without a timetable."""
    if not has_calendar(read):
        return {}
    told = calendar_of(read)
    pages = {CALENDAR: calendar_page(told, shell=shell, here=CALENDAR)}
    for team, href in told.teams.items():
        pages[href] = team_page(told, team, shell=shell, under=CALENDAR)
    for field, href in told.fields.items():
        pages[href] = field_list_page(told, field, shell=shell, under=CALENDAR)
    return {
        **{name: page.encode() for name, page in pages.items()},
        **calendar_pdfs(told, printed=shell.printed),
    }


def calendar_pdfs(told: Calendar, *, printed: datetime) -> dict[str, bytes]:
    """Return the calendar on each paper."""
    return {
        "calendar-a4.pdf": calendar_pdf(told, printed=printed, paper="a4"),
        "calendar-letter.pdf": calendar_pdf(told, printed=printed, paper="us-letter"),
    }


def calendar_of(read: SeasonFolder) -> Calendar:
    """Return the timetable to show, each team and field with the file of its page."""
    league = read.season.league
    games = entries(read.timetable, read.open_fixtures, _ended(read.season))
    fields = sorted({one.field for one in games}, key=lambda one: (len(one), one))
    return Calendar(
        league=league.name,
        first_day=league.first_day,
        games=games,
        slots=_slots(read),
        teams={
            one.team: f"calendar-team-{number}.html"
            for number, one in enumerate(league.teams, start=1)
        },
        fields={
            field: f"calendar-field-{number}.html"
            for number, field in enumerate(fields, start=1)
        },
    )


def _slots(read: SeasonFolder) -> tuple[Slot, ...]:
    """Return the slots that no closure takes."""
    closures = read.planning.closures
    return tuple(
        slot for slot in read.planning.slots if not any(one.closes(slot) for one in closures)
    )


def _ended(season: Season) -> dict[GameId, Ended]:
    """Return how each game ended that has a result; an annulled one is as if not played."""
    counting = regulation(season.rulebook).counting
    results = (*season.results, *season.outside.play_offs, *season.play_offs)
    return {
        one.game: Ended(
            goals=None if one.how == "double_forfeit" else as_awarded(one, counting),
            winner=winner_of(one) or "",
            kicks=one.kicks,
            by="" if one.how in ("played", "awarded") else one.how.replace("_", " "),
        )
        for one in results
        if one.how != "annulled"
    }
