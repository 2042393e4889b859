"""Gives the events of one game of a season folder, wherever they were written down."""

from dataclasses import dataclass

from wholeball.files.game_log import log_name, read_game
from wholeball.files.log_doubts import log_doubts
from wholeball.game.codec import events
from wholeball.game.envelope import Entry
from wholeball.game.event import Event
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.book import Rulebook


@dataclass(frozen=True, slots=True, kw_only=True)
class GameEvents:
    """A game's entries and events, and what is doubtful about where they are written down."""

    entries: tuple[Entry, ...]
    events: tuple[Event, ...]
    remarks: tuple[Fault, ...]


def game_events(record: LeagueRecord, game: GameId, book: Rulebook) -> GameEvents:
    """Return what is recorded of a game; no event where nothing is.

    Raises:
        InputFaults: every line of the log that says nothing.
        WholeballError: the log cannot be read.
    """
    log = read_game(record, game)
    return GameEvents(
        entries=log.report.standing,
        events=events(log.report.standing),
        remarks=log_doubts(log, book.digest, log_name(game)),
    )
