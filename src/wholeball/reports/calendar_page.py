"""Makes the pages of the calendar: all weeks, and one page a team and a field."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from wholeball.planning.problem import Slot
from wholeball.reports.calendar import Entry, loads, of_field, of_team, weeks
from wholeball.reports.calendar_svg import loads_svg
from wholeball.reports.figures import score
from wholeball.reports.shell import Link, Page, Shell, Spot, rendered
from wholeball.rulebook.sentence import counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """A timetable to show; slots are those that can be used, where they are known.

    `teams` and `fields` lead to the pages of each by their names.
    """

    league: str
    first_day: date
    games: tuple[Entry, ...]
    slots: tuple[Slot, ...]
    teams: dict[str, str]
    fields: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class ListLine:
    """A game in a list: each side after its word, and the number that matters of it."""

    entry: Entry
    sides: tuple[tuple[str, str], ...]
    where: str
    number: str
    more: str = ""


def calendar_page(told: Calendar, *, shell: Shell, here: str) -> str:
    """Return the page of all weeks."""
    found = loads(told.games, told.slots, first_day=told.first_day)
    to_come = sum(one.is_to_come for one in told.games)
    return rendered(
        "calendar.html",
        Page(here=here, title="Calendar", spot=_spot(told.games)),
        shell,
        league=told.league,
        weeks=weeks(told.games, told.slots, first_day=told.first_day),
        loads=loads_svg(found, title="Games a week"),
        has_loads=bool(found),
        has_places=bool(told.slots),
        to_come=counted(to_come, "game") if to_come else "",
        teams=_links(told.teams),
        fields=_links(told.fields),
        hrefs=told.teams,
    )


def team_page(told: Calendar, team: str, *, shell: Shell, under: str) -> str:
    """Return the page of one team: its games, and how many it plays each week."""
    games = of_team(told.games, team)
    return _list_page(
        told,
        games,
        Page(
            here=told.teams[team],
            title=team,
            spot=_spot(games),
            under=under,
            about="calendar",
        ),
        shell,
        lines=[line_of_team(one, team) for one in games],
    )


def field_list_page(told: Calendar, field: str, *, shell: Shell, under: str) -> str:
    """Return the page of one field: its games, and how many it has each week."""
    games = of_field(told.games, field)
    return _list_page(
        told,
        games,
        Page(
            here=told.fields[field],
            title=field,
            spot=_spot(games),
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
    told: Calendar, games: Sequence[Entry], page: Page, shell: Shell, *, lines: list[ListLine]
) -> str:
    return rendered(
        "calendar_list.html",
        page,
        shell,
        league=told.league,
        lines=lines,
        loads=loads_svg(loads(games, first_day=told.first_day), title="Games a week"),
        back=page.under,
    )


def _spot(games: Sequence[Entry]) -> Spot:
    return Spot(number=f"{len(games)}", label="game" if len(games) == 1 else "games")


def _links(hrefs: dict[str, str]) -> tuple[Link, ...]:
    return tuple(Link(label=name, href=href) for name, href in hrefs.items())
