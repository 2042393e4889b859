"""Shows a day of a season: its games, and everything that somebody should settle, with the cure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Final, Literal, TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.record import LeagueRecord
from wholeball.reports.fee_words import owed_words
from wholeball.reports.night import NightGame, night_games
from wholeball.rulebook.sentence import Sentence, counted, listed, say
from wholeball.season.appearances import SIDES, GameSheet, team_of
from wholeball.season.eligibility import Eligibility, Known
from wholeball.season.ruled import holding
from wholeball.usecases.first_steps import Step, first_steps
from wholeball.usecases.local_day import local_day
from wholeball.usecases.season_people import known_of

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
]
"""Where something is settled; `of` of a line names the game or the team there."""
State: TypeAlias = Literal["before", "on", "over"]
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
class TonightGame:
    """A game of the day with its crew, and how far it is."""

    game: GameId
    start: time
    field: str
    home: str
    away: str
    crew: tuple[str, ...]
    state: State
    word: str
    is_first: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """A day: its games, what is to settle, and the next night where it has no game.

    `steps` lead to the first night, and are none once a game has been played. `owing` teams owe a
    fee; it is None where the rulebook has none.
    """

    league: str
    day: date
    games: tuple[TonightGame, ...]
    to_settle: tuple[ToSettle, ...]
    next_night: date | None
    suspended: int
    not_cleared: int
    steps: tuple[Step, ...] = ()
    owing: int | None = None

    @property
    def title(self) -> str:
        """The day as people say it."""
        return day_of_season(self.day)

    @property
    def fields(self) -> str:
        """Where games are played, as a list."""
        return listed(tuple(dict.fromkeys(one.field for one in self.games)))


def show_today(record: LeagueRecord, *, at: datetime, day: date | None = None) -> Today:
    """Return a day of a season, today otherwise, and what is open by then; for staff only.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    return today_of(read, day or local_day(read, at))


def today_of(read: SeasonFolder, on: date) -> Today:
    """Return a day of a season as it was read."""
    listed_games: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    tonight = of_night(listed_games, on)
    roles = read.season.rulebook.crew.roles
    games = night_games(tonight, read.season.league.teams, read.crews, roles)
    sheets = {one.fixture.game: one for one in read.sheets}
    known = known_of(read, on)
    blocked = len({one.person for one in read.not_cleared if one.holds_on(on)})
    return Today(
        league=read.season.league.name,
        day=on,
        games=tuple(_tonight(games, sheets)),
        to_settle=(
            *_crews(games, sheets),
            *_players(read, on, known),
            *_unwritten(read, on, sheets),
            *_questions(read),
            *_uncertified(read),
            *_protests(read),
            *_meetings(known),
            *_not_cleared(blocked),
            *_fees(known),
        ),
        suspended=len({one.person for one in known.discipline.open}),
        not_cleared=blocked,
        next_night=min((one.day for one in listed_games if one.day > on), default=None),
        steps=first_steps(read),
        owing=len(known.fees.open_by_team()) if known.book.forfeit.fee.amount else None,
    )


def _tonight(
    games: Sequence[NightGame], sheets: dict[GameId, GameSheet]
) -> Iterator[TonightGame]:
    before: time | None = None
    for one in games:
        state, word = _how_far(one, sheets.get(one.game))
        yield TonightGame(
            game=one.game,
            start=one.start,
            field=one.field,
            home=one.home.name,
            away=one.away.name,
            crew=tuple(name for _, name in one.crew if name),
            state=state,
            word=word,
            is_first=one.start != before,
        )
        before = one.start


def _how_far(game: NightGame, sheet: GameSheet | None) -> tuple[State, str]:
    if game.is_open:
        return "before", "a side is to come"
    if sheet is not None and sheet.is_certified:
        return "over", "certified"
    if sheet is not None and sheet.has_ended:
        return "on", "not certified"
    if sheet is not None:
        return "on", "under way"
    lacking = _lacking(game)
    return ("before", f"{lacking} missing") if lacking else ("over", "crew complete")


def _lacking(game: NightGame) -> str:
    """Return the roles of a game that nobody fills."""
    return listed(tuple(_role(role) for role, name in game.crew if not name))


def _role(role: str) -> str:
    return role.replace("_", " ")


def _crews(games: Sequence[NightGame], sheets: dict[GameId, GameSheet]) -> Iterator[ToSettle]:
    for one in games:
        lacking = _lacking(one)
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


def _unwritten(
    read: SeasonFolder, on: date, sheets: dict[GameId, GameSheet]
) -> Iterator[ToSettle]:
    """Yield games of nights gone by of which no result is known."""
    ruled = holding(read.season.rulings)
    for one in read.timetable:
        sheet = sheets.get(one.game)
        if one.day < on and one.game not in ruled and (sheet is None or not sheet.has_ended):
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
