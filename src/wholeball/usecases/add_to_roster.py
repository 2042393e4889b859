"""Adds the players of a list to a team's roster in a season folder."""

from collections.abc import Callable, Iterable
from contextlib import nullcontext
from dataclasses import dataclass
from datetime import date
from typing import Final

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.given_list import GivenList
from wholeball.files.more_rows import Cells, with_rows
from wholeball.files.roster_additions import Standing, additions
from wholeball.files.roster_import import Entries, Entry, read_entries
from wholeball.files.rosters import COLUMNS as ROSTER_COLUMNS
from wholeball.files.rosters import FILE as ROSTERS_FILE
from wholeball.files.student_ids import CHECK_FILE, IdKey, check_text, is_other_key
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import Fault, Place, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.record import LeagueRecord

_MOST_CHECK: Final = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """Who was added to a roster, what was left as it was, and what is doubtful.

    `players` is the size of the roster with them.
    """

    entries: Entries
    new: tuple[Entry, ...]
    already: int
    players: int
    remarks: tuple[Fault, ...]


def add_to_roster(  # noqa: PLR0913 - each comes from somewhere else
    record: LeagueRecord,
    given: GivenList,
    *,
    team: str,
    key: IdKey,
    day: date,
    dry_run: bool = False,
    before_writing: Callable[[], None] = lambda: None,
) -> Added:
    """Add the players of a list on a day, all or none; done again, it changes nothing.

    `before_writing` is called once it is sure that something will be written.

    Raises:
        InputFaults: everything that is wrong with the list, or with the folder.
        WholeballError: no such folder or team; another key; the disk refuses.
    """
    entries = read_entries(given.data, file=given.name)
    with nullcontext() if dry_run else record.held():
        read = read_folder(record)
        to = _standing(read, team)
        doubts = about_key(record, read, key)
        adding = additions(entries, to, key=key, day=day)
        if adding.new and not dry_run:
            before_writing()
            write_rows(record, adding.cells(), key)
    return Added(
        entries=entries,
        new=adding.new,
        already=adding.already,
        players=len(read.rosters.get(to.team, ())) + len(adding.new),
        remarks=(*doubts, *entries.remarks, *adding.remarks),
    )


def _standing(read: SeasonFolder, team: str) -> Standing:
    league = read.season.league
    names = [str(one.team) for one in league.teams]
    if team not in names:
        raise WholeballError(
            f"There is no team {team!r} in teams.csv.",
            fix=did_you_mean(team, names) if names else "Add a row for it to teams.csv.",
            code="unknown_team",
        )
    rules = read.season.rulebook.roster
    return Standing(team=TeamId(team), league=league, rules=rules, rosters=read.rosters)


def about_key(record: LeagueRecord, read: SeasonFolder, key: IdKey) -> tuple[Fault, ...]:
    """Refuse another key than the codes of the folder were made with: nobody would be known.

    A check that is empty tells as little as one that is missing.
    """
    kept = record.read(CHECK_FILE, _MOST_CHECK) if record.has(CHECK_FILE) else b""
    if kept.strip():
        if is_other_key(key, kept):
            raise WholeballError(
                f"The codes in {record.place} were made with another key for student ids.",
                fix=f"Nothing was changed. Use that key: {record.way('id_key')}",
                code="key",
            )
        return ()
    if all(one.person is None for players in read.rosters.values() for one in players):
        return ()
    doubt = Fault(
        code="key",
        place=Place(file=ROSTERS_FILE, column="person"),
        says=f"there are codes already, and no {CHECK_FILE} tells which key made them.",
        cure="If another key did, nobody is known again: compare a few players.",
        level="doubt",
    )
    return (doubt,)


def write_rows(record: LeagueRecord, cells: Iterable[Cells], key: IdKey) -> None:
    """Write rows at the end of rosters.csv, and what tells which key their codes were made with."""
    data = record.read(ROSTERS_FILE, MOST_BYTES) if record.has(ROSTERS_FILE) else b""
    rows = with_rows(data, cells, columns=ROSTER_COLUMNS)
    record.write({ROSTERS_FILE: rows, CHECK_FILE: check_text(key)})
