"""Finds what somebody should settle on a day of a season, each with what leads to its cure."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

from wholeball.files.folder import SeasonFolder
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture, of_night
from wholeball.reports.fee_words import owed_words
from wholeball.reports.night import NightGame
from wholeball.rulebook.sentence import Sentence, counted, listed, say
from wholeball.season.appearances import SIDES, GameSheet, team_of
from wholeball.season.eligibility import Eligibility, Known
from wholeball.season.ruled import holding
from wholeball.usecases.later_nights import LaterNight, later_nights
from wholeball.usecases.set_crews import posts_of

Sheets: TypeAlias = Mapping[GameId, GameSheet]
Where: TypeAlias = Literal[
    "crews",
    "team",
    "scorecard",
    "certify",
    "questions",
    "rule",
    "suspensions",
    "clearances",
    "fees",
    "game",
    "reports",
]
"""Where something is settled; `of` of a line names the game or the team there."""
NOTHING: Final[Mapping[GameId, int]] = MappingProxyType({})
"""No game has a report that is not read yet."""
ABOUT: Final = {
    "rule_misapplied": "a rule misapplied",
    "eligibility": "who may play",
    "judgement": "a judgement",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ToSettle:
    """One thing to settle: how far it is, what is so, and what leads to its cure."""

    state: Literal["before", "on"]
    word: str
    says: Sentence
    cure: str
    where: Where
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnDay:
    """A day of a season: its games with their crews, those that go on, what is known by then.

    `unread` counts reports about games that the reader has not read yet.
    """

    day: date
    games: Sequence[NightGame]
    later: Sequence[LaterNight]
    sheets: Sheets
    known: Known
    blocked: int
    unread: Mapping[GameId, int]


def to_settle(read: SeasonFolder, on: OnDay) -> Iterator[ToSettle]:
    """Yield everything that somebody should settle on a day, the nearest first."""
    yield from _crews(on.games, on.sheets)
    yield from _later_crews(read, on.later, on.sheets)
    yield from _players(read, on.day, on.known)
    yield from _reports(read, on.unread)
    yield from _unwritten(read, on.day, on.sheets)
    yield from _questions(read)
    yield from _uncertified(read)
    yield from _protests(read)
    yield from _meetings(on.known)
    yield from _not_cleared(on.blocked)
    yield from _fees(on.known)


def lacking_of(game: NightGame) -> str:
    """Return the roles of a game that nobody fills."""
    return listed(tuple(_role(role) for role, name in game.crew if not name))


def _role(role: str) -> str:
    return role.replace("_", " ")


def _crews(games: Sequence[NightGame], sheets: Sheets) -> Iterator[ToSettle]:
    for one in games:
        lacking = lacking_of(one)
        if lacking and one.game not in sheets:
            yield ToSettle(
                state="before",
                word="missing",
                says=say(
                    "Game {game}, {start}, {field} has no {lacking}.",
                    game=one.game,
                    start=f"{one.start:%H:%M}",
                    field=one.field,
                    lacking=lacking,
                ),
                cure="See the night",
                where="crews",
                of=str(one.game),
            )


def _later_crews(
    read: SeasonFolder, later: Iterable[LaterNight], sheets: Sheets
) -> Iterator[ToSettle]:
    """Yield the games that go on on the day, as far as nobody fills a role then."""
    for one in later:
        game, sheet = one.fixture.game, sheets.get(one.fixture.game)
        posts = posts_of(read.season.rulebook.crew.roles, read.crews, game, one.day)
        lacking = listed(tuple(_role(post.role) for post in posts if not post.official))
        if lacking and (sheet is None or not sheet.has_ended):
            yield ToSettle(
                state="before",
                word="missing",
                says=say(
                    "Game {game} goes on and has no {lacking}.", game=game, lacking=lacking
                ),
                cure="See the night",
                where="crews",
                of=str(game),
            )


def _players(read: SeasonFolder, on: date, known: Known) -> Iterator[ToSettle]:
    """Yield the sides of the day that could not start with those who may play."""
    games = of_night(read.timetable, on)
    if not games:
        return
    eligible = Eligibility(known)
    least = read.season.rulebook.sides.minimum_to_start
    for game in games:
        for side in SIDES:
            lines = eligible.gate_list(game, side)
            free = sum(not one.is_blocked for one in lines)
            if free < least:
                team, start = team_of(game, side), f"{game.start:%H:%M}"
                yield _short(team, len(lines), free, least, start)


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


def _reports(read: SeasonFolder, unread: Mapping[GameId, int]) -> Iterator[ToSettle]:
    """Yield the games about which a report waits to be read; nothing that is in it."""
    fixtures = {one.game: one for one in read.timetable}
    for game, many in unread.items():
        said = f"{counted(many, 'report')} of an incident you have not read."
        fixture = fixtures.get(game)
        yield ToSettle(
            state="on",
            word="report",
            says=_about(fixture, said)
            if fixture is not None
            else say(f"Game {{game}}: {said}", game=game),
            cure="Read it" if many == 1 else "Read them",
            where="reports",
            of=str(game),
        )


def _unwritten(read: SeasonFolder, on: date, sheets: Sheets) -> Iterator[ToSettle]:
    """Yield games of nights gone by of which no result is known."""
    ruled = holding(read.season.rulings)
    last = {one.fixture.game: one.day for one in later_nights(read)}
    for one in read.timetable:
        sheet, day = sheets.get(one.game), last.get(one.game, one.day)
        if day >= on or one.game in ruled or (sheet is not None and sheet.has_ended):
            continue
        if sheet is not None and sheet.to_go_on:
            yield ToSettle(
                state="before",
                word="stopped",
                says=_about(one, "it was stopped, and no night to come is named for the rest."),
                cure="Name the night",
                where="game",
                of=str(one.game),
            )
        else:
            yield ToSettle(
                state="before",
                word="no result",
                says=_about(one, "no result is known."),
                cure="Type in the scorecard",
                where="scorecard",
                of=str(one.game),
            )


def _questions(read: SeasonFolder) -> Iterator[ToSettle]:
    for one in read.sheets:
        if one.asked and not one.is_certified:
            says = f"{counted(len(one.asked), 'question')} nobody has answered."
            yield ToSettle(
                state="on",
                word="open question",
                says=_about(one.fixture, says),
                cure="Answer",
                where="questions",
                of=str(one.fixture.game),
            )


def _uncertified(read: SeasonFolder) -> Iterator[ToSettle]:
    """Yield games with a result from a log that nobody has made official."""
    for one in read.sheets:
        game = one.fixture.game
        if one.has_ended and not one.is_certified and game not in read.rows:
            yield ToSettle(
                state="on",
                word="not certified",
                says=_about(one.fixture, "the result is not certified."),
                cure="Certify",
                where="certify",
                of=str(game),
            )


def _protests(read: SeasonFolder) -> Iterator[ToSettle]:
    ruled = holding(read.season.rulings)
    for one in read.sheets:
        for protest in one.protests if one.fixture.game not in ruled else ():
            about = ABOUT[protest.about]
            yield ToSettle(
                state="on",
                word="protest",
                says=_about(one.fixture, f"a protest about {about} waits for a ruling."),
                cure="Rule on it",
                where="rule",
                of=str(one.fixture.game),
            )


def _meetings(known: Known) -> Iterator[ToSettle]:
    open_ones = known.discipline.open
    waiting = sum(one.waits for one in open_ones)
    if waiting:
        says = f"{counted(waiting, 'suspension waits', 'suspensions wait')} for a meeting."
        yield ToSettle(
            state="on", word="pending", says=say(says), cure="Decide", where="suspensions"
        )


def _not_cleared(blocked: int) -> Iterator[ToSettle]:
    """Yield how many are blocked at the gate; never why."""
    if blocked:
        says = f"{counted(blocked, 'player is', 'players are')} not cleared to play."
        yield ToSettle(
            state="on", word="not cleared", says=say(says), cure="See who", where="clearances"
        )


def _fees(known: Known) -> Iterator[ToSettle]:
    """Yield the teams whose captains may not play until a fee is settled."""
    for team in known.fees.open_by_team() if known.fees.captain_waits else ():
        yield ToSettle(
            state="on",
            word="fee open",
            says=owed_words(known.fees, team, known.book),
            cure="To the fees",
            where="fees",
        )


def _about(game: Fixture, says: str) -> Sentence:
    """Return a sentence that begins with a game: its night, its name and its sides."""
    return say(
        f"{{day}}, game {{game}}, {{home}} v {{away}}: {says}",
        day=day_of_season(game.day),
        game=game.game,
        home=game.home,
        away=game.away,
    )
