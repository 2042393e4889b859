"""Reads every log of a season folder, and finds those that are of no game."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from typing import Final

from wholeball.files.game_log import FOLDER, GameLog, log_name, read_game
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import MOST_SHOWN, Fault, InputFaults, Place, WholeballError
from wholeball.kernel.nearest import nearest
from wholeball.league.record import LeagueRecord

_SUFFIX: Final = ".jsonl"


@dataclass(slots=True, kw_only=True)
class Logs:
    """The logs of a folder by the games they are named for, and the faults in them.

    `names` are those of all logs, read or not; `by_game` leaves out logs without an entry.
    """

    names: tuple[str, ...]
    by_game: dict[str, GameLog] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)


def read_logs(record: LeagueRecord) -> Logs:
    """Return every log in a season's games/, with every fault of each."""
    logs = Logs(names=())
    try:
        logs.names = tuple(sorted(_names(record)))
    except OSError as error:
        says = f"the folder cannot be read: {error.strerror}."
        cure = "Check the disk and the folder's permissions."
        place = Place(file=f"{FOLDER}/")
        logs.faults.append(Fault(code="storage", place=place, says=says, cure=cure))
    for game in logs.names:
        _read(logs, record, game)
    return logs


def strays(logs: Logs, games: Collection[str], listed: Collection[str]) -> list[Fault]:
    """Doubt each log that is of no game of the timetable; those `listed` are told elsewhere.

    The nearest game is looked for as often as faults are shown.
    """
    known = {*games, *listed}
    found = [name for name in logs.names if name not in known]
    return [_stray(name, games if at < MOST_SHOWN else ()) for at, name in enumerate(found)]


def _names(record: LeagueRecord) -> Iterator[str]:
    for name in record.names(FOLDER):
        if name.endswith(_SUFFIX) and not name.startswith("."):
            yield name.removesuffix(_SUFFIX)


def _read(logs: Logs, record: LeagueRecord, game: str) -> None:
    """Read one log; a name that no game's log can have is left to `strays`."""
    try:
        log = read_game(record, game)
    except InputFaults as refused:
        logs.faults.extend(refused.faults)
    except WholeballError as error:
        if error.code != "path":
            place = Place(file=f"{FOLDER}/{game}{_SUFFIX}")
            logs.faults.append(
                Fault(code=error.code, place=place, says=error.says, cure=error.fix)
            )
    else:
        if log.entries:
            logs.by_game[game] = log


def _stray(name: str, games: Collection[str]) -> Fault:
    """Say why a log counts for nothing; its entries name its game, so no file is renamed."""
    says = f"{name} is no game of {TIMETABLE_FILE}; its log counts for nothing."
    cure = f"Add a row for it to {TIMETABLE_FILE}"
    meant = nearest(name, games)
    if meant is not None:
        cure += f"; if it is game {meant} there, write {name} in that row"
    try:
        log_name(name)
    except WholeballError:
        says, cure = f"{name} is no name that a log can have.", "Take the file out"
    return Fault(
        code="unknown_game",
        place=Place(file=f"{FOLDER}/{name}{_SUFFIX}"),
        says=says,
        value=name,
        cure=f"{cure}.",
        level="doubt",
    )
