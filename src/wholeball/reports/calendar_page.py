"""Makes the pages of the calendar: all weeks or one, and one page a team, a field and a night."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from wholeball.kernel.identity import GameId
from wholeball.planning.problem import Slot
from wholeball.reports.calendar import Entry, loads, of_field, of_team, weeks
from wholeball.reports.calendar_svg import loads_svg
from wholeball.reports.dates import day
from wholeball.reports.figures import score
from wholeball.reports.shell import Link, Page, Shell, Spot, rendered
from wholeball.rulebook.sentence import counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """A timetable to show; slots are those that can be used, where they are known.

    `teams` and `fields` lead to the pages of each by their names; `weeks`, `nights` and `pages`
    to those of weeks, nights and games, as far as they have one. `own` is the page on which
    people make feeds of a team or a field, where there is a site.
    """

    league: str
    first_day: date
    games: tuple[Entry, ...]
    slots: tuple[Slot, ...]
    teams: dict[str, str]
    fields: dict[str, str]
    weeks: Mapping[int, str] = field(default_factory=dict)
    nights: Mapping[date, str] = field(default_factory=dict)
    pages: Mapping[GameId, str] = field(default_factory=dict)
    own: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OfTeam:
    """What the page of a team says beside its games; names are as the public may read them.

    `stands` says how it stands in its table, whose page is `table`.
    """

    colours: str
    stands: str
    table: str
    people: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ListLine:
    """A game in a list: each side after its word, and the number that matters of it."""

    entry: Entry
    sides: tuple[tuple[str, str], ...]
    where: str
    number: str
    more: str = ""


def calendar_page(
    told: Calendar, *, shell: Shell, here: str, week: int | None = None, under: str = ""
) -> str:
    """Return the page of all weeks, or of one of those that have a page."""
    found = loads(told.games, told.slots, first_day=told.first_day)
    to_come = sum(one.is_to_come for one in told.games)
    every = weeks(told.games, told.slots, first_day=told.first_day)
    return rendered(
        "calendar.html",
        Page(
            here=here,
            title="Calendar",
            spot=Spot.counting(len(told.games), "game"),
            under=under,
            about="" if week is None else f"week {week}",
        ),
        shell,
        league=told.league,
        shown=week,
        hrefs=told.weeks,
        nights=told.nights,
        pages=told.pages,
        weeks=[one for one in every if week in (None, one.number)],
        loads=loads_svg(found, title="Games a week"),
        has_loads=bool(found),
        has_places=bool(told.slots),
        to_come=counted(to_come, "game") if to_come else "",
        teams=_links(told.teams),
        fields=_links(told.fields),
    )


def team_page(
    told: Calendar, team: str, *, shell: Shell, under: str, more: OfTeam | None = None
) -> str:
    """Return the page of one team: its games, how many it plays each week, and `more` of it."""
    games = of_team(told.games, team)
    return _list_page(
        told,
        Page(
            here=told.teams[team],
            title=team,
            spot=Spot.counting(len(games), "game"),
            under=under,
            about="calendar",
        ),
        shell,
        lines=[line_of_team(one, team) for one in games],
        more=more,
    )


def field_list_page(told: Calendar, field: str, *, shell: Shell, under: str) -> str:
    """Return the page of one field: its games, and how many it has each week."""
    games = of_field(told.games, field)
    return _list_page(
        told,
        Page(
            here=told.fields[field],
            title=field,
            spot=Spot.counting(len(games), "game"),
            under=under,
            about="calendar",
        ),
        shell,
        lines=[
            ListLine(
                entry=one, sides=(("", one.home), ("v", one.away)), where="", number=one.at
            )
            for one in games
        ],
    )


def night_page(told: Calendar, night: date, *, shell: Shell, under: str) -> str:
    """Return the page of one night: its games by start and field, as far as they have ended."""
    games = tuple(one for one in told.games if one.night == night)
    return _list_page(
        told,
        Page(
            here=told.nights[night],
            title=day(night),
            spot=Spot.counting(len(games), "game"),
            under=under,
            about="calendar",
        ),
        shell,
        lines=[_line_of_night(one) for one in games],
        has_loads=False,
    )


def _line_of_night(one: Entry) -> ListLine:
    ended = one.ended
    sides = (("", one.home), ("v", one.away))
    if ended is None or ended.goals is None:
        more = "" if ended is None else ended.by
        return ListLine(entry=one, sides=sides, where=one.field, number=one.at, more=more)
    kicks = "" if ended.kicks is None else f"kicks {score(*ended.kicks)}"
    return ListLine(
        entry=one,
        sides=sides,
        where=one.field,
        number=score(*ended.goals),
        more=", ".join(filter(None, (one.at, ended.by, kicks))),
    )


def line_of_team(one: Entry, team: str) -> ListLine:
    """Return a game of a team: its start, or once it has ended its score, own goals first."""
    other, ended = one.against(team), one.ended
    if ended is None or ended.goals is None:
        return ListLine(
            entry=one,
            sides=(("against", other),),
            where=one.field,
            number=one.at,
            more="" if ended is None else ended.by,
        )
    word = {team: "won against", other: "lost to"}.get(ended.winner, "level with")
    notes = [one.at, ended.by]
    if ended.kicks is not None:
        notes.append(f"kicks {score(*_own_first(ended.kicks, one, team))}")
    return ListLine(
        entry=one,
        sides=((word, other),),
        where=one.field,
        number=score(*_own_first(ended.goals, one, team)),
        more=", ".join(filter(None, notes)),
    )


def _own_first(goals: tuple[int, int], one: Entry, team: str) -> tuple[int, int]:
    return goals if one.home == team else (goals[1], goals[0])


def _list_page(
    told: Calendar,
    page: Page,
    shell: Shell,
    *,
    lines: list[ListLine],
    more: OfTeam | None = None,
    has_loads: bool = True,
) -> str:
    games = [one.entry for one in lines]
    return rendered(
        "calendar_list.html",
        page,
        shell,
        league=told.league,
        lines=lines,
        loads=loads_svg(loads(games, first_day=told.first_day), title="Games a week"),
        back=page.under,
        pages=told.pages,
        more=more,
        own=told.own if has_loads else "",
        has_loads=has_loads and bool(lines),
    )


def _links(hrefs: dict[str, str]) -> tuple[Link, ...]:
    return tuple(Link(label=name, href=href) for name, href in hrefs.items())
