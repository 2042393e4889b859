"""Finds what somebody should settle on a day of a season, each with what leads to its cure."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Final

from wholeball.files.folder import SeasonFolder
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture
from wholeball.reports.night import NightGame
from wholeball.rulebook.sentence import counted, listed, say
from wholeball.season.ruled import holding
from wholeball.usecases.later_nights import LaterNight, later_nights
from wholeball.usecases.set_crews import posts_of
from wholeball.usecases.settle_people import (
    meetings,
    not_cleared,
    open_fees,
    played_suspended,
    short_sides,
)
from wholeball.usecases.thing_to_settle import OnDay, Sheets, ToSettle, about_game

ABOUT: Final = {
    "rule_misapplied": "a rule misapplied",
    "eligibility": "who may play",
    "judgement": "a judgement",
}


def to_settle(read: SeasonFolder, on: OnDay) -> Iterator[ToSettle]:
    """Yield everything that somebody should settle on a day, the nearest first."""
    yield from _crews(on.games, on.sheets)
    yield from _later_crews(read, on.later, on.sheets)
    yield from short_sides(read, on)
    yield from _reports(read, on.unread)
    yield from _unwritten(read, on.day, on.sheets)
    yield from _questions(read)
    yield from _uncertified(read)
    yield from _protests(read)
    yield from played_suspended(read, on.day, on.known)
    yield from meetings(on.known)
    yield from not_cleared(on.blocked)
    yield from open_fees(on.known)


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


def _reports(read: SeasonFolder, unread: Mapping[GameId, int]) -> Iterator[ToSettle]:
    """Yield the games about which a report waits to be read; nothing that is in it."""
    fixtures = {one.game: one for one in read.timetable}
    for game, many in unread.items():
        said = f"{counted(many, 'report')} of an incident you have not read."
        fixture = fixtures.get(game)
        yield ToSettle(
            state="on",
            word="report",
            says=about_game(fixture, said)
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
        if sheet is not None and sheet.to_rule_on and one.game not in ruled:
            yield _to_rule_on(one)
            continue
        if day >= on or one.game in ruled or (sheet is not None and sheet.has_ended):
            continue
        if sheet is not None and sheet.to_go_on:
            yield ToSettle(
                state="before",
                word="stopped",
                says=about_game(
                    one, "it was stopped, and no night to come is named for the rest."
                ),
                cure="Name the night",
                where="game",
                of=str(one.game),
            )
        else:
            yield ToSettle(
                state="before",
                word="no result",
                says=about_game(one, "no result is known."),
                cure="Type in the scorecard",
                where="scorecard",
                of=str(one.game),
            )


def _to_rule_on(game: Fixture) -> ToSettle:
    return ToSettle(
        state="on",
        word="waits",
        says=about_game(game, "it was broken off, and waits for the coordinator."),
        cure="Rule on it",
        where="rule",
        of=str(game.game),
    )


def _questions(read: SeasonFolder) -> Iterator[ToSettle]:
    for one in read.sheets:
        if one.asked and not one.is_certified:
            says = f"{counted(len(one.asked), 'question')} nobody has answered."
            yield ToSettle(
                state="on",
                word="open question",
                says=about_game(one.fixture, says),
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
                says=about_game(one.fixture, "the result is not certified."),
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
                says=about_game(one.fixture, f"a protest about {about} waits for a ruling."),
                cure="Rule on it",
                where="rule",
                of=str(one.fixture.game),
            )
