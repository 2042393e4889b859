"""Prints all suspensions of a season as a tagged PDF, for staff only."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.reports.dates import day, moment
from wholeball.reports.person_words import (
    article_name,
    cause_words,
    still_words,
    unless_words,
)
from wholeball.reports.roster_lines import breakable
from wholeball.reports.typeset import Paper, typeset
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import listed
from wholeball.season.suspension import Barred, Discipline, Suspension

NOT_KEPT: Final = (
    "Show it to nobody but staff. A captain is told to see the coordinator, and nothing else."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """Who a person is: each team that lists them, and their name there."""

    lines: Mapping[PersonId, Sequence[tuple[TeamId, str]]]

    def of(self, person: PersonId, team: TeamId | None = None) -> str:
        """Return the name as a team's roster has it, or any, or the code."""
        found = self.lines.get(person, ())
        own = next((name for listing, name in found if listing == team), None)
        return own or next((name for _, name in found), person)

    def teams(self, person: PersonId) -> str:
        """Return the teams that list a person."""
        return ", ".join(team for team, _ in self.lines.get(person, ())) or "no roster"


@dataclass(frozen=True, slots=True, kw_only=True)
class SuspensionsSheet:
    """What the sheet shows: suspensions as of a day, names, and the timetable."""

    league: str
    found: Discipline
    names: Names
    timetable: Sequence[Fixture]


def suspensions_pdf(
    sheet: SuspensionsSheet, book: Rulebook, *, printed: datetime, paper: Paper
) -> bytes:
    """Return the suspensions of a season as PDF/UA-1; those that still hold come first.

    Args:
        sheet: what is shown.
        book: the rulebook, for the articles.
        printed: local time.
        paper: A4 or US Letter.
    """
    found = sheet.found
    over = [one for one in found.suspensions if not one.holds_on(found.on)]
    data = {
        "title": f"Suspensions, {sheet.league}",
        "paper": paper,
        "date": list(printed.timetuple()[:6]),
        "foot": f"Printed {moment(printed)}.",
        "lead": f"{sheet.league}, as of {day(found.on)}.",
        "care": NOT_KEPT,
        "open": [_row(one, sheet.names, book) for one in found.open],
        "over": [_row(one, sheet.names, book) for one in over],
        "barred": _barred(sheet),
        "breaches": _breaches(sheet, book),
    }
    return typeset("suspensions.typ", data)


def _row(one: Suspension, names: Names, book: Rulebook) -> dict[str, Any]:
    where = "everywhere" if one.league is None else f"in {one.league}"
    rulings = f"; by ruling {listed(tuple(map(str, one.rulings)))}" if one.rulings else ""
    cause = cause_words(one, book)
    return {
        "person": breakable(names.of(one.person)),
        "team": breakable(names.teams(one.person)),
        "why": f"{cause[0].upper()}{cause[1:]}, {where}, from {day(one.day)}{rulings}.",
        "served": [f"{each.game}, {day(each.day)}" for each in one.served],
        "games": one.games,
        "still": still_words(one),
        "waits": one.waits and one.lifted is None,
    }


def _barred(sheet: SuspensionsSheet) -> list[dict[str, str]]:
    return [
        {
            "when": f"{day(fixture.day)}, {fixture.start:%H:%M}",
            "game": fixture.game,
            "person": breakable(sheet.names.of(one.person, one.team)),
            "team": breakable(one.team),
            "unless": _unless(one),
        }
        for fixture in sorted(
            sheet.timetable, key=lambda each: (each.day, each.start, each.game)
        )
        for one in sheet.found.barred.get(fixture.game, ())
    ]


def _unless(one: Barred) -> str:
    return unless_words(one.unless).removeprefix(", ")


def _breaches(sheet: SuspensionsSheet, book: Rulebook) -> list[str]:
    article = article_name("discipline.serving", book)
    return [
        f"{one.game}: {sheet.names.of(one.person, one.team)} for {one.team} ({article})."
        for one in sheet.found.breaches
    ]
