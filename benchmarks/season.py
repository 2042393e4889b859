"""Times a whole season, from its folder to every table, against json.loads of its logs.

The reference takes each line of each log from memory, one after the other, and keeps nothing.
The subject opens every file, checks and verifies every byte, plays every game, and works out
the standings of each pool after each round, the suspensions and the ratings. Both are run in
turn; as on the command line, the collector is spared what has been imported.
"""

import gc
import json
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from benchmarks.games import EVENTS
from benchmarks.in_turn import Measured, in_turn
from benchmarks.season_folder import LAST_DAY, write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import FOLDER
from wholeball.season.raters import rated_in
from wholeball.season.ratings import season_ratings
from wholeball.season.season import pool_tables
from wholeball.usecases.season_people import discipline_of

REPEATS: Final = 3
MOST: Final = 8.0


def measure() -> list[Measured]:
    """Return the ratio, the best of three runs in turn."""
    gc.freeze()
    try:
        return [_row(EVENTS)]
    finally:
        gc.unfreeze()


def tables(folder: Path) -> tuple[object, ...]:
    """Return every table of the season in a folder, from its files."""
    read = read_folder(FolderRecord(folder))
    season = read.season
    rated = rated_in(read.sheets, read.crews, season.rulebook.crew.roles)
    return (
        [pool_tables(season, pool) for pool in season.league.pools],
        discipline_of(read, LAST_DAY),
        season_ratings(season, rated),
    )


def _row(events: int) -> Measured:
    with TemporaryDirectory() as place:
        folder = Path(place) / "season"
        season = write_folder(folder, events)
        logs = [path.read_bytes() for path in sorted((folder / FOLDER).iterdir())]
        referred, worked = in_turn(lambda: _json(logs), lambda: tables(folder), times=REPEATS)
    least, ours = min(referred), min(worked)
    size = f"{season.teams} teams and {season.games} games of {events} events"
    return (
        f"whole season of {size}, all tables from logs, {ours:.2f} s",
        f"json.loads of all logs, {least:.2f} s",
        ours / least,
        MOST,
    )


def _json(logs: list[bytes]) -> None:
    for log in logs:
        for line in log.splitlines():
            json.loads(line)
