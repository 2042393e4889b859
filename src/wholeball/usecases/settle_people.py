"""Finds what is to settle about players on a day: who may play, who did, and who waits."""

from collections.abc import Iterator
from datetime import date

from wholeball.files.folder import SeasonFolder
from wholeball.league.fixture import of_night
from wholeball.reports.fee_words import owed_words
from wholeball.rulebook.sentence import counted, say
from wholeball.season.appearances import SIDES, team_of
from wholeball.season.eligibility import Eligibility, Known
from wholeball.season.found_ineligible import found_ineligible
from wholeball.season.ruled import holding
from wholeball.usecases.check_season import name_of
from wholeball.usecases.season_people import on_rosters
from wholeball.usecases.thing_to_settle import OnDay, ToSettle, about_game


def short_sides(read: SeasonFolder, on: OnDay) -> Iterator[ToSettle]:
    """Yield the sides of the day that could not start with those who may play."""
    there = {one.game for one in on.games}
    games = [one for one in of_night(read.timetable, on.day) if one.game in there]
    if not games:
        return
    eligible = Eligibility(on.known)
    least = read.season.rulebook.sides.minimum_to_start
    for game in games:
        for side in SIDES:
            lines = eligible.gate_list(game, side)
            free = sum(not one.is_blocked for one in lines)
            if free < least:
                team, start = team_of(game, side), f"{game.start:%H:%M}"
                yield _short(team, len(lines), free, least, start)


def played_suspended(read: SeasonFolder, on: date, known: Known) -> Iterator[ToSettle]:
    """Yield who appeared while suspended, as long as something may follow and nobody has ruled."""
    fixtures = {one.fixture.game: one.fixture for one in known.sheets}
    names, ruled = on_rosters(read), holding(read.season.rulings)
    for one in found_ineligible(known, on) if known.discipline.breaches else ():
        is_suspended = any(reason.code == "suspended" for reason in one.reasons)
        if not is_suspended or one.then == "result_stands" or one.game in ruled:
            continue
        who = name_of(one.person, one.team, names)
        yield ToSettle(
            state="on",
            word="suspended",
            says=about_game(
                fixtures[one.game],
                "{who} of {team} appeared while suspended.",
                who=who,
                team=one.team,
            ),
            cure="Rule on it",
            where="rule",
            of=str(one.game),
        )


def meetings(known: Known) -> Iterator[ToSettle]:
    """Yield how many suspensions wait for a meeting."""
    open_ones = known.discipline.open
    waiting = sum(one.waits for one in open_ones)
    if waiting:
        says = f"{counted(waiting, 'suspension waits', 'suspensions wait')} for a meeting."
        yield ToSettle(
            state="on", word="pending", says=say(says), cure="Decide", where="suspensions"
        )


def not_cleared(blocked: int) -> Iterator[ToSettle]:
    """Yield how many are blocked at the gate; never why."""
    if blocked:
        says = f"{counted(blocked, 'player is', 'players are')} not cleared to play."
        yield ToSettle(
            state="on", word="not cleared", says=say(says), cure="See who", where="clearances"
        )


def open_fees(known: Known) -> Iterator[ToSettle]:
    """Yield the teams whose captains may not play until a fee is settled."""
    for team in known.fees.open_by_team() if known.fees.captain_waits else ():
        yield ToSettle(
            state="on",
            word="fee open",
            says=owed_words(known.fees, team, known.book),
            cure="To the fees",
            where="fees",
        )


def _short(team: str, players: int, free: int, least: int, start: str) -> ToSettle:
    if not players:
        says = say("{team} has no roster, and plays at {start}.", team=team, start=start)
    else:
        says = say(
            "{team} has {free} for {start}; a side starts with {least} or more.",
            team=team,
            free=counted(free, "player who may play", "players who may play"),
            start=start,
            least=least,
        )
    return ToSettle(
        state="before", word="missing", says=says, cure="See the roster", where="team", of=team
    )
