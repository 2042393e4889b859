"""Takes a season in from a folder, an archive or a single file: all of it, or nothing."""

from dataclasses import dataclass

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.new_record import write_new
from wholeball.files.refused_by_disk import told_of_disk
from wholeball.files.season_texts import Gathered, gathered, unpacked
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.league.record import LeagueRecord
from wholeball.store.changes import is_private


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """The season as it was read, and the names of files that are no part of one."""

    season: SeasonFolder
    left_out: tuple[str, ...]


def import_season(given: LeagueRecord, to: LeagueRecord) -> Imported:
    """Take over all that a record keeps, into one that is new or empty.

    The whole of it is read and judged first.

    Raises:
        InputFaults: everything that is wrong with it; nothing was written.
        WholeballError: there is no such record, or the other is not empty.
    """
    with told_of_disk(given.place, "read"):
        found = gathered(given)
    return _taken(found, to)


def import_archive(data: bytes, to: LeagueRecord, *, file: str) -> Imported:
    """Take a season over out of a ZIP archive of its folder; `file` is what it is called.

    Raises:
        InputFaults: everything that is wrong with it; nothing was written.
        WholeballError: the other record is not empty.
    """
    return _taken(unpacked(data, file=file), to)


def try_file(record: LeagueRecord, name: str, data: bytes) -> SeasonFolder:
    """Return what a season would be with one of its files read anew; nothing is written.

    Raises:
        InputFaults: everything that would be wrong with the season.
    """
    _bounded(name, data)
    return read_folder(record, instead={name: data})


def import_file(record: LeagueRecord, name: str, data: bytes) -> SeasonFolder:
    """Put a file in the place of the one that a season has, and return the season.

    Raises:
        InputFaults: everything that would be wrong with the season; nothing was written.
        WholeballError: it cannot be kept.
    """
    _bounded(name, data)
    with record.held():
        season = read_folder(record, instead={name: data})
        record.write({name: data}, private=frozenset(filter(is_private, (name,))))
    return season


def _taken(found: Gathered, to: LeagueRecord) -> Imported:
    texts = found.texts.texts
    season = read_folder(found.texts)
    with to.held():
        write_new(to, texts, private=frozenset(filter(is_private, texts)))
    return Imported(season=season, left_out=found.left_out)


def _bounded(name: str, data: bytes) -> None:
    if len(data) > MOST_BYTES:
        says = f"the file has {len(data):,} bytes."
        cure = f"At most {MOST_BYTES:,}."
        raise InputFaults([Fault(code="limits", place=Place(file=name), says=says, cure=cure)])
