"""Gives the events of one game of a season folder, wherever they were written down."""

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from wholeball.files.game_log import log_name, read_game
from wholeball.game.codec import events
from wholeball.game.envelope import Code, Entry, Finding
from wholeball.game.event import Event
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId
from wholeball.rulebook.book import Rulebook

SAYS: Final[dict[Code, str]] = {
    "chain": "Entry {seq} of device {dev} is not as it was written; it and what follows are left out.",
    "gap": "Entry {seq} of device {dev} is missing; what follows it is left out.",
    "fork": "Device {dev} wrote entry {seq} twice; the first one is read.",
    "id_clash": "Entry {seq} of device {dev} has the identity of another and is left out.",
    "head": "Device {dev} had written up to entry {seq}, and the log ends before it.",
    "future_version": "Entry {seq} of device {dev} is of a newer version; it is kept, not read.",
}
_CURES: Final[dict[Code, str]] = {
    "future_version": "Update this program.",
    "gap": "Fetch the device's entries again.",
    "head": "Fetch the device's entries again.",
}
_ASK: Final = "Compare with the paper scorecard, and enter again what is wrong."


@dataclass(frozen=True, slots=True, kw_only=True)
class GameEvents:
    """A game's events, and what is doubtful about where they are written down."""

    events: tuple[Event, ...]
    remarks: tuple[Fault, ...]


def game_events(folder: Path, game: GameId, book: Rulebook) -> GameEvents:
    """Return what is recorded of a game; no event where nothing is.

    Raises:
        InputFaults: every line of the log that says nothing.
        WholeballError: the log cannot be read.
    """
    log = read_game(folder, game)
    file = log_name(game)
    return GameEvents(
        events=events(log.report.standing),
        remarks=(
            *(_doubt(one, file) for one in log.findings),
            *_other_rulebook(log.report.standing, book, file),
        ),
    )


def _doubt(found: Finding, file: str) -> Fault:
    return Fault(
        code=found.code,
        place=Place(file=file),
        says=SAYS[found.code].format(seq=found.seq, dev=found.dev),
        cure=_CURES.get(found.code, _ASK),
        level="doubt",
    )


def _other_rulebook(entries: tuple[Entry, ...], book: Rulebook, file: str) -> tuple[Fault, ...]:
    others = sum(entry.said.rb != book.digest for entry in entries)
    if not others:
        return ()
    return (
        Fault(
            code="rulebook",
            place=Place(file=file),
            says=f"{others} of {len(entries)} entries were made under another rulebook.",
            cure="Look whether the rulebook was changed after the game.",
            level="doubt",
        ),
    )
