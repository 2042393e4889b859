"""Tells about which games there are reports of incidents that somebody has not read yet.

What was read is known from what the audit noted: how many reports about a game were shown.
"""

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Final

from wholeball.files.incident_reports import read_reports, reported_games
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import counted

_READING: Final = re.compile(r"([0-9]+) reports? about game (.+)")


def reading_of(reports: int, game: GameId) -> str:
    """Return what the audit notes when somebody is shown the reports about a game."""
    return f"{counted(reports, 'report')} about game {game}"


def unread_reports(record: LeagueRecord, noted: Iterable[str]) -> Mapping[GameId, int]:
    """Return how many reports about each game were written since its reports were last read.

    `noted` is what the audit has of somebody; reports are only ever added.

    Raises:
        InputFaults: a report cannot be read.
    """
    seen: Counter[str] = Counter()
    for found in filter(None, map(_READING.fullmatch, noted)):
        seen[found[2]] = max(seen[found[2]], int(found[1]))
    games = {game: len(read_reports(record, game)) for game in reported_games(record)}
    return {game: many - seen[game] for game, many in games.items() if many > seen[game]}
