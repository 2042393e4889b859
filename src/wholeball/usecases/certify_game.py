"""Certifies the result of a game, and opens it again."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Final

from wholeball.files.game_log import HeldLog, held, read_game
from wholeball.files.log_doubts import log_doubts
from wholeball.game.envelope import heads
from wholeball.game.happenings import Certified, Happening, Reopened
from wholeball.game.official import Official, official
from wholeball.game.paper_entries import AT_THE_DESK, Told
from wholeball.game.plain import digest
from wholeball.game.state import GameState
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.text import unreadable
from wholeball.league.record import LeagueRecord
from wholeball.reports.game_told import ToldGame
from wholeball.rulebook.sentence import counted, listed
from wholeball.usecases.enter_game import (
    GameToEnter,
    game_of_folder,
    told_as_counted,
    told_so_far,
)
from wholeball.usecases.seal_entries import (
    DESK,
    Author,
    author_name,
    refuse_damage,
    refuse_newer,
    sealed,
)

MOST_REASON: Final = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Decided:
    """A game whose result was certified or reopened, and what is doubtful about its log."""

    told: ToldGame
    remarks: tuple[Fault, ...]


def entries_of(record: LeagueRecord, game: GameId) -> int:
    """Return how many entries a game has, for who looks at it before certifying."""
    return len(read_game(record, game).entries)


def certify_game(
    record: LeagueRecord,
    game: GameId,
    *,
    by: Author,
    reason: str = "",
    seen: int | None = None,
) -> Decided:
    """Make the result official, counted up to the last entry of every device.

    `seen` is how many entries the game had when it was looked at; None where nobody looked.

    Raises:
        InputFaults: everything that is wrong with the folder, or with the game's log.
        WholeballError: more was entered meanwhile; it is certified, has not ended or has no
            result; a question about it is
            open or its log is damaged, and no reason is given; the disk refuses.
    """
    with _held_game(record, game) as (to, writes):
        before = told_so_far(to, to.events)
        _refuse_certified(to)
        refuse_newer(to.log, to.game, seen, done="certified")
        _refuse_unended(to, before.state)
        why = _reason(reason)
        if not why:
            _refuse_doubtful(to, before.state)
        return _decided(to, writes, _certification(to, before.state, by, why), by)


def _certification(to: GameToEnter, state: GameState, by: Author, why: str) -> Certified:
    frontier = heads(to.log.report.standing)
    return Certified(
        by=author_name(by.name),
        state=digest(state),
        frontier=tuple((dev, last, head) for dev, (last, head) in sorted(frontier.items())),
        reason=why,
    )


def reopen_game(
    record: LeagueRecord, game: GameId, *, by: Author, reason: str, seen: int | None = None
) -> Decided:
    """Take a certification back: all that is recorded counts again.

    `seen` is how many entries the game had when it was looked at; None where nobody looked.

    Raises:
        InputFaults: everything that is wrong with the folder, or with the game's log.
        WholeballError: more was entered meanwhile; the game is not certified, no reason is
            given, or the disk refuses.
    """
    with _held_game(record, game) as (to, writes):
        if official(to.log.report.standing, to.rules) is None:
            raise WholeballError(
                f"The result of game {game} is not certified.",
                fix="There is nothing to reopen.",
                code="not_certified",
            )
        refuse_newer(to.log, to.game, seen, done="reopened")
        why = _reason(reason)
        if not why:
            raise WholeballError(
                "A result is reopened for a reason, and none is given.",
                fix='Give one, such as: "A goal was left out."',
                code="reason",
            )
        return _decided(to, writes, Reopened(by=author_name(by.name), reason=why), by)


@contextmanager
def _held_game(record: LeagueRecord, game: GameId) -> Iterator[tuple[GameToEnter, HeldLog]]:
    """Give a game as it stands while nobody else may write of it."""
    to = game_of_folder(record, game)
    with held(record, game) as writes:
        yield replace(to, log=writes.log), writes


def _refuse_certified(to: GameToEnter) -> None:
    counts = official(to.log.report.standing, to.rules)
    if counts is not None:
        raise WholeballError(
            f"The result of game {to.game} is certified already, by {_certifier(counts)}.",
            fix=f"To certify another, first: {to.record.way('reopen', game=to.game)}",
            code="certified",
        )


def _certifier(counts: Official) -> str:
    what = counts.certified.what
    return what.by if isinstance(what, Certified) else "nobody"


def _refuse_unended(to: GameToEnter, state: GameState) -> None:
    if state.ending is None:
        raise WholeballError(
            f"Game {to.game} has not ended by what is recorded of it.",
            fix=f"Enter the rest first: {to.record.way('enter', game=to.game)}",
            code="not_ended",
        )
    if state.ending.how == "to_coordinator":
        raise WholeballError(
            f"Game {to.game} waits for the coordinator, and has no result yet.",
            fix=f"Rule on it: {to.record.way('rule', game=to.game)}",
            code="to_coordinator",
        )


def _refuse_doubtful(to: GameToEnter, state: GameState) -> None:
    """Refuse what a person should look at first; a reason says that they have."""
    asked, found = len(state.open_questions), len(to.log.findings)
    doubts = [
        *([f"{counted(asked, 'question')} that nobody has answered"] if asked else []),
        *([f"{counted(found, 'entry', 'entries')} that cannot be relied on"] if found else []),
    ]
    if doubts:
        way = to.record.way
        cures = [
            f"Look at it: {way('look', game=to.game)}",
            *([f"Answer: {way('answer', game=to.game)}"] if asked else []),
            "Or certify it all the same, with the reason why",
        ]
        raise WholeballError(
            f"Game {to.game} has {listed(tuple(doubts))}.",
            fix=" ".join(f"{one.removesuffix('.')}." for one in cures),
            code="open_questions" if asked else "damaged",
        )


def _reason(text: str) -> str:
    cleaned = text.strip()
    if len(cleaned) > MOST_REASON or unreadable(cleaned):
        raise WholeballError(
            f"The reason {cleaned[:40]!a} does not do.",
            fix=f"Give at most {MOST_REASON} letters that people can see.",
            code="range",
        )
    return cleaned


def _decided(to: GameToEnter, writes: HeldLog, what: Happening, by: Author) -> Decided:
    """Write one entry of the desk's, and return the game as it stands with it."""
    refuse_damage(to.log, to.game, DESK, "the desk")
    book = to.rules.book.digest
    [entry] = sealed(
        to.log, [Told(AT_THE_DESK, what)], game=to.game, writer=DESK, by=by, rulebook=book
    )
    writes.append([entry])
    doubts = log_doubts(to.log, book, f"games/{to.game}.jsonl")
    return Decided(told=told_as_counted(to, (*to.log.report.standing, entry)), remarks=doubts)
