"""Writes timetable.csv, and keeps the one that it replaces."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Final

from wholeball.files.table import MOST_BYTES, write_table
from wholeball.files.timetable import COLUMNS, FILE
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Stage
from wholeball.league.record import LeagueRecord
from wholeball.planning.problem import Pairing, Placement

KEPT: Final = "timetables"
"""The folder with the timetables that were replaced, each by the local time of that."""


def timetable_rows(
    placements: Iterable[Placement],
    games: Mapping[GameId, Pairing],
    stages: Mapping[GameId, Stage],
) -> bytes:
    """Return timetable.csv, its games in the order of time and field.

    A game whose stage is not stated is of the league where it has a pool, or else a play-off.
    """
    rows = []
    for one in sorted(placements, key=lambda each: (each.start, each.field)):
        game = games[one.game]
        stage = stages.get(one.game, "play_off" if game.pool is None else "league")
        rows.append(
            (
                one.game,
                game.round,
                one.start.night,
                f"{one.start.at:%H:%M}",
                one.field,
                game.home,
                game.away,
                "" if stage == "league" else stage,
            )
        )
    return write_table([column.name for column in COLUMNS], rows)


def with_the_old_one(record: LeagueRecord, data: bytes, *, at: datetime) -> dict[str, bytes]:
    """Return what is to be written: the new timetable, and the one that it replaces.

    `at` is the local time of the writing. A timetable without a game, or the same, is not kept.
    """
    old = record.read(FILE, MOST_BYTES) if record.has(FILE) else b""
    if len(old.splitlines()) < 2 or old == data:
        return {FILE: data}
    name = f"{KEPT}/{at:%Y-%m-%dT%H%M%S}"
    number = 1
    kept = f"{name}.csv"
    while record.has(kept):
        number += 1
        kept = f"{name}-{number}.csv"
    return {FILE: data, kept: old}
