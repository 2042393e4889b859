"""Prints the packet of a night from a season folder: all that goes to the field on paper."""

from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.write import write_places
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.reports.night import GateList, Night, NightGame, night_games, night_sites
from wholeball.reports.night_packet_pdf import night_packet_pdf
from wholeball.reports.scorecards import scorecards
from wholeball.season.eligibility import Eligibility
from wholeball.usecases.print_booklet import Paper
from wholeball.usecases.print_scorecards import Printed, no_game
from wholeball.usecases.season_people import known_of
from wholeball.usecases.tonight import tonight


def print_packet(
    record: LeagueRecord, *, night: date, paper: Paper, out: Path, printed: datetime
) -> Printed:
    """Write a night's packet as one PDF; a game whose side is to come is on the night sheet only.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder, no game that night, or the disk refuses.
    """
    read = read_folder(record)
    local = printed.astimezone(ZoneInfo(read.season.league.timezone))
    if not of_night(_listed(read), night):
        raise no_game(_listed(read), record, night)
    told = night_of(read, night, on=local.date())
    made = night_packet_pdf(told, read.season.rulebook, printed=local, paper=paper.value)
    write_places({out.parent: {out.name: made}})
    return Printed(path=out, games=len(told.games), remarks=read.remarks)


def night_of(read: SeasonFolder, night: date, *, on: date) -> Night:
    """Return what a season's folder says of a night, as known on a day.

    Who may play is told as it stood before the night, so that a packet printed again says the
    same. A game that is off is on the night sheet only, which says so.
    """
    league = read.season.league
    listed, off = of_night(_listed(read), night), tonight(read, night).off
    fixtures = tuple(one for one in of_night(read.timetable, night) if one.game not in off)
    games = tuple(
        replace(one, is_off=one.game in off)
        for one in night_games(
            listed, league.teams, read.crews, read.season.rulebook.crew.roles
        )
    )
    return Night(
        league=league.name,
        day=night,
        games=games,
        sites=night_sites(games, read.sites, read.fields),
        gates=_gates(_before(read, night), fixtures, games, on=min(on, night)),
        cards=scorecards(fixtures, league.teams, read.rosters),
    )


def _listed(read: SeasonFolder) -> tuple[Fixture | OpenFixture, ...]:
    return (*read.timetable, *read.open_fixtures)


def _before(read: SeasonFolder, night: date) -> SeasonFolder:
    return replace(read, sheets=tuple(one for one in read.sheets if one.fixture.day < night))


def _gates(
    read: SeasonFolder, fixtures: tuple[Fixture, ...], games: tuple[NightGame, ...], *, on: date
) -> tuple[GateList, ...]:
    eligible = Eligibility(known_of(read, on))
    by_game = {one.game: one for one in games}
    return tuple(
        GateList(
            game=by_game[one.game],
            home=eligible.gate_list(one, "home"),
            away=eligible.gate_list(one, "away"),
        )
        for one in fixtures
    )
