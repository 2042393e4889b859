"""Tells on the command line what a season could bear."""

from collections.abc import Iterator
from dataclasses import asdict

from wholeball.cli.output import print_json, print_lines, printing_refusals
from wholeball.cli.plan_told import moment
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import counted
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.what_if import Help
from wholeball.usecases.ask_what_if import Room, room_for_teams, what_helps


def tell_what_if(
    record: LeagueRecord,
    what: str,
    *,
    rain: int,
    seconds: float,
    now: str | None,
    as_json: bool,
) -> None:
    """Ask, and print the answer; `seconds` is what each try may take."""
    with printing_refusals(file=record.place, as_json=as_json):
        at = moment(record, now)
        if what == "teams":
            room = room_for_teams(record, rain=rain, now=at)
            values: object = asdict(room)
            lines = [_room_line(room)]
        else:
            found = what_helps(record, Budget(seconds=seconds, workers=1), now=at)
            values = {"helps": [asdict(one) for one in found]}
            lines = list(_help_lines(found))
    if as_json:
        print_json(values)
    else:
        print_lines(lines)


def _room_line(room: Room) -> str:
    pools = counted(room.pools, "more pool") if room.pools else "No more pool"
    fit = "fits" if room.pools < 2 else "fit"
    return (
        f"{pools} of {counted(room.teams, 'team')} with {counted(room.games_each, 'game')} each "
        f"{fit}, with {room.rain} nights in a hundred kept for rain."
    )


def _help_lines(found: tuple[Help, ...]) -> Iterator[str]:
    if not found:
        yield "No single thing more makes the timetable better."
    for one in found:
        yield f"{one.says} The best timetable found then costs {one.total:,}."
