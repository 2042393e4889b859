"""Makes the report of a season: a page, tables for other programs, and values."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import date
from decimal import Decimal
from typing import Final

from wholeball.kernel.plain_table import PlainCell, PlainTable
from wholeball.reports.bars_svg import Row, bars_svg
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.rulebook.sentence import counted
from wholeball.season.participation import Counts, Participation
from wholeball.season.ratings import Gate

NO_DAY: Final = "no day given"
_HEADS: Final = (
    "games",
    "played",
    "forfeits",
    "defaults",
    "double_forfeits",
    "to_come",
    "people",
    "game_hours",
    "player_hours",
    "sides_played",
    "sides_checked_in",
)
_GATES: Final[Mapping[Gate, str]] = {
    "passes": "reach what the play-offs need",
    "below": "are below it",
    "too_few": "have too few ratings to tell",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonReport:
    """A season counted, under the name of its league; it names no person and no team."""

    league: str
    found: Participation


def week_name(monday: date | None) -> str:
    """Return a week by the day it begins: "14 Sep"."""
    return NO_DAY if monday is None else f"{monday.day} {_MONTHS[monday.month - 1]}"


_MONTHS: Final = (
    *("Jan", "Feb", "Mar", "Apr", "May", "Jun"),
    *("Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
)


def hours(minutes: int) -> Decimal:
    """Return minutes as hours with one figure after the point, half a tenth to the even one."""
    return (Decimal(minutes) / 60).quantize(Decimal("0.1"))


def report_page(report: SeasonReport, *, shell: Shell, here: str) -> str:
    """Return the report as a page; its pictures say in words all that they show."""
    found = report.found
    labels = [week_name(part.monday) for part in found.weeks]
    page = Page(
        here=here,
        title=report.league,
        about="season report",
        spot=_spot(found.total),
    )
    return rendered(
        "season_report.html",
        page,
        shell,
        facts=_facts(found),
        notes=_notes(found),
        heads=_COLUMNS,
        weeks=[(week_name(part.monday), _figures(part.counts)) for part in found.weeks],
        divisions=[(part.name, _figures(part.counts)) for part in found.divisions],
        total=_figures(found.total),
        by_week=_pictures(labels, [Row(name="All games", values=_played(found))]),
        by_division=_pictures(
            labels, [Row(name=name, values=values) for name, values in found.played.items()]
        )
        if len(found.divisions) > 1
        else [],
    )


def report_tables(report: SeasonReport) -> dict[str, PlainTable]:
    """Return the tables of the report by the name of their file: weeks and divisions."""
    found = report.found
    return {
        "season-report-weeks": PlainTable(
            title="Weeks",
            header=("week_of", *_HEADS),
            rows=tuple((part.monday, *_cells(part.counts)) for part in found.weeks),
        ),
        "season-report-divisions": PlainTable(
            title="Divisions",
            header=("division", *_HEADS),
            rows=tuple((part.name, *_cells(part.counts)) for part in found.divisions),
        ),
    }


def report_values(report: SeasonReport) -> dict[str, object]:
    """Return the report as plain values; hours are minutes there, exact."""
    found = report.found
    return {
        "league": report.league,
        "total": asdict(found.total),
        "rostered": found.rostered,
        "weeks": [
            {"week_of": part.monday and part.monday.isoformat(), **asdict(part.counts)}
            for part in found.weeks
        ],
        "divisions": [
            {
                "division": part.name,
                **asdict(part.counts),
                "played_by_week": list(found.played[part.name]),
            }
            for part in found.divisions
        ],
        "ratings": {
            "counted": found.rated,
            **{f"teams_{gate}": found.gates.get(gate, 0) for gate in _GATES},
        },
    }


def report_lines(report: SeasonReport) -> list[str]:
    """Return the report in a few lines, for a terminal."""
    found = report.found
    return [
        f"{report.league}.",
        *(f"{label}: {value}" for label, value in _facts(found)),
        *_notes(found),
    ]


def _facts(found: Participation) -> list[tuple[str, str]]:
    total = found.total
    return [
        ("People", f"{_known(total)}, {found.rostered:,} on rosters"),
        ("Games", f"{total.played:,} played of {total.games:,}, {total.to_come:,} to come"),
        (
            "Given up",
            (
                f"{counted(total.forfeits, 'forfeit')}, {counted(total.defaults, 'default')}, "
                f"{counted(total.double_forfeits, 'double forfeit')}"
            ),
        ),
        ("Hours of play", f"{hours(total.game_minutes):,}"),
        ("Players' hours", _players_hours(total)),
        ("Ratings", _ratings(found)),
    ]


def _spot(total: Counts) -> Spot:
    """Return the people where every side was checked in, else the games: that number is whole."""
    if total.sides_checked < total.sides_played:
        return Spot.counting(total.played, "game played", "games played")
    return Spot.counting(total.people, "person played", "people played")


def _known(total: Counts) -> str:
    """Return how many people played, or, where sides were not checked in, how many at least."""
    if total.sides_checked < total.sides_played:
        return f"at least {total.people:,} played"
    return f"{total.people:,} known to have played"


def _players_hours(total: Counts) -> str:
    if not total.sides_checked:
        return "no check-in was written down"
    return (
        f"{hours(total.player_minutes):,}, by the check-in of {total.sides_checked:,} of "
        f"{total.sides_played:,} sides that played"
    )


def _ratings(found: Participation) -> str:
    if not found.rated:
        return "no rating counts"
    teams = (
        f"{counted(found.gates[gate], 'team')} {words if found.gates[gate] != 1 else _one(words)}"
        for gate, words in _GATES.items()
        if found.gates.get(gate)
    )
    return f"{counted(found.rated, 'rating')}; {', '.join(teams)}"


def _one(words: str) -> str:
    """Return what is said of several teams as it is said of one."""
    verb, rest = words.split(" ", 1)
    return f"{_SINGULAR[verb]} {rest}"


_SINGULAR: Final = {"reach": "reaches", "are": "is", "have": "has"}


def _notes(found: Participation) -> list[str]:
    notes = [
        (
            "Hours are the minutes of the rulebook: overtime is left out, and a game broken off "
            "counts whole. People are told apart by their codes on the rosters."
        )
    ]
    if found.total.unknown:
        notes.append(
            f"{counted(found.total.unknown, 'appearance')} could not be put to a person, and "
            "count as nobody."
        )
    if 0 < found.total.sides_checked < found.total.sides_played:
        notes.append("Players of a side without a check-in bring no hours: there are more.")
    return notes


_COLUMNS: Final = (
    "Games",
    "Played",
    "Forfeits",
    "Defaults",
    "People",
    "Hours",
    "Players' hours",
)


def _figures(one: Counts) -> tuple[str, ...]:
    """Return the figures of a row as the page shows them; a double forfeit is one forfeited game."""
    given_up = one.forfeits + one.double_forfeits
    numbers = (one.games, one.played, given_up, one.defaults, one.people)
    return (
        *(f"{number:,}" for number in numbers),
        f"{hours(one.game_minutes):,}",
        f"{hours(one.player_minutes):,}",
    )


def _cells(one: Counts) -> tuple[PlainCell, ...]:
    return (
        one.games,
        one.played,
        one.forfeits,
        one.defaults,
        one.double_forfeits,
        one.to_come,
        one.people,
        hours(one.game_minutes),
        hours(one.player_minutes),
        one.sides_played,
        one.sides_checked,
    )


def _played(found: Participation) -> tuple[int, ...]:
    return tuple(part.counts.played for part in found.weeks)


def _pictures(labels: list[str], rows: list[Row]) -> list[str]:
    """Return a picture for each row, all on one scale; none where there is no week."""
    most = max((value for row in rows for value in row.values), default=0)
    drawn = rows if labels else []
    return [bars_svg(row, labels, most=most, unit="games played") for row in drawn]
