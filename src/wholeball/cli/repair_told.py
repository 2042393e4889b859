"""Repairs the timetable for the command line, and tells whose games move."""

from collections.abc import Callable, Iterator, Sequence
from datetime import date

from wholeball.cli.award import day_of
from wholeball.cli.output import print_json, print_lines, print_remarks, printing_refusals
from wholeball.cli.plan_told import How, moment, plan_values, watched
from wholeball.files.closures import FILE as CLOSURES_FILE
from wholeball.files.closures_write import Lost
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.league.record import LeagueRecord
from wholeball.planning.difference import Moved, told
from wholeball.planning.problem import Pairing, Placement
from wholeball.rulebook.sentence import counted
from wholeball.usecases.repair_timetable import (
    Happened,
    RepairedSeason,
    repair_timetable,
)


def happened_of(
    *,
    lost: tuple[Sequence[str], Sequence[str]],
    teams: tuple[Sequence[str], Sequence[str]],
    edited: bool,
) -> Happened:
    """Return what has happened: nights and fields that are lost, teams that leave and come.

    Raises:
        WholeballError: a night is no day.
    """
    nights, fields = lost
    withdrawn, added = teams
    return Happened(
        lost_nights=tuple(_night_and_site(one) for one in nights),
        lost_fields=tuple(_field_and_night(one) for one in fields),
        withdrawn=tuple(withdrawn),
        added=tuple(added),
        edited=edited,
    )


def tell_repair(record: LeagueRecord, *, happened: Callable[[], Happened], how: How) -> None:
    """Repair, and print what moves or why there is no plan."""
    with (
        printing_refusals(file=record.place, as_json=how.as_json, writes=how.writes),
        watched(how.seconds, lambda _: "a timetable") as watch,
    ):
        found = repair_timetable(
            record,
            happened(),
            how.budget,
            now=moment(record, how.now),
            writes=how.writes,
            watch=watch,
        )
    print_remarks(found.remarks)
    if how.as_json:
        print_json(_values(found))
        return
    print_lines(_lines(found))


def _night_and_site(text: str) -> tuple[date, str | None]:
    night, _, site = text.partition("@")
    return day_of(night), site or None


def _field_and_night(text: str) -> tuple[str, date | None]:
    field, _, night = text.rpartition("@")
    return (field, day_of(night)) if field else (night, None)


def _lines(found: RepairedSeason) -> Iterator[str]:
    repaired = found.found
    yield f"{counted(len(repaired.moved), 'game')} changed; the rest stays as announced."
    yield (
        "Fewer could not move, and not less far."
        if repaired.is_least
        else "Whether fewer could move was not proved."
    )
    pairings = {one.game: one for one in _all_games(found)}
    for team, says in told(repaired.moved, pairings).items():
        yield f"{team}:"
        yield from (f"  {line}" for line in says)
    for lost in found.lost:
        verb = "says from now on" if found.written else "would say"
        yield f"{CLOSURES_FILE} {verb} that this is lost: {lost}."
    if found.written:
        yield ""
        yield from (str(path) for path in found.written)


def _all_games(found: RepairedSeason) -> Iterator[Pairing]:
    """Yield the games of before and after: one that is dropped is told as well."""
    before: tuple[Fixture | OpenFixture, ...] = (
        *found.read.timetable,
        *found.read.open_fixtures,
    )
    for one in before:
        yield Pairing(game=one.game, home=one.home, away=one.away, round=one.round)
    yield from found.found.problem.pairings


def _values(found: RepairedSeason) -> dict[str, object]:
    repaired = found.found
    return {
        **plan_values(repaired.plan, repaired.problem, found.written),
        "is_least": repaired.is_least,
        "moved": [_moved(one) for one in repaired.moved],
        "lost": [_lost(one) for one in found.lost],
    }


def _moved(one: Moved) -> dict[str, object]:
    return {"game": one.game, "how": one.how, "was": _place(one.was), "now": _place(one.now)}


def _lost(one: Lost) -> dict[str, object]:
    return {
        "field": one.field,
        "site": one.site,
        "date": f"{one.first}",
        "last_date": f"{one.last}",
        "from": None if one.begins is None else f"{one.begins:%H:%M}",
    }


def _place(one: Placement | None) -> dict[str, str] | None:
    if one is None:
        return None
    return {
        "date": f"{one.start.night}",
        "start": f"{one.start.at:%H:%M}",
        "field": one.field,
    }
