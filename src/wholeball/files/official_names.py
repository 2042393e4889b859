"""Calls an official otherwise in every text of a season that names one, and finds sealed names."""

from collections.abc import Iterator, Mapping
from typing import Final

from wholeball.files.crews import COLUMNS as CREW_COLUMNS
from wholeball.files.crews import FILE as CREWS_FILE
from wholeball.files.game_log import FOLDER as LOGS
from wholeball.files.game_log import read_game
from wholeball.files.incident_reports import games_reported_by
from wholeball.files.officials import COLUMNS as OFFICIAL_COLUMNS
from wholeball.files.officials import FILE as OFFICIALS_FILE
from wholeball.files.other_cells import with_names
from wholeball.game.envelope import Entry
from wholeball.league.record import LeagueRecord

_COLUMNS: Final = {OFFICIALS_FILE: OFFICIAL_COLUMNS, CREWS_FILE: CREW_COLUMNS}
FILES: Final = tuple(_COLUMNS)
"""Every file that may name an official."""
_LOG: Final = ".jsonl"
_SAY_WHO: Final = ("certify", "reopen")
"""Entries that say by their own words who made them."""


def renamed(texts: Mapping[str, bytes], old: str, new: str) -> dict[str, bytes]:
    """Return the texts that name an official, with another name in its place."""
    found = {
        name: with_names(data, "official", old, new, columns=_COLUMNS[name])
        for name, data in texts.items()
    }
    return {name: data for name, data in found.items() if data != texts[name]}


def sealed(record: LeagueRecord, official: str) -> Iterator[str]:
    """Yield what names an official for ever: logs they wrote in, and reports of theirs.

    Capitals tell no two people apart, as in the list of officials.
    """
    for name in record.names(LOGS):
        game = name.removesuffix(_LOG)
        if game != name and _wrote_in(record, game, official):
            yield f"the log of game {game}"
    for game in games_reported_by(record, official):
        yield f"a report about game {game}"


def _wrote_in(record: LeagueRecord, game: str, official: str) -> bool:
    entries = read_game(record, game).entries
    return any(name.casefold() == official.casefold() for one in entries for name in _who(one))


def _who(entry: Entry) -> Iterator[str]:
    yield entry.said.who
    if entry.said.type in _SAY_WHO:
        yield f"{entry.said.p.get('by', '')}"
