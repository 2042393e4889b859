"""Decides about a person after a red or at a meeting, and blocks at the gate, with what follows."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.discipline import COLUMNS as DECISION_COLUMNS
from wholeball.files.discipline import FILE as DISCIPLINE_FILE
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.not_cleared import COLUMNS as BLOCK_COLUMNS
from wholeball.files.not_cleared import FILE as NOT_CLEARED_FILE
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import PersonId
from wholeball.league.record import LeagueRecord
from wholeball.season.decision import Decided
from wholeball.usecases.local_day import local_day
from wholeball.usecases.season_people import on_rosters
from wholeball.usecases.show_people import SuspensionLine, SuspensionsShown, suspensions_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruled:
    """A decision, the person's suspensions before it and after it, and whether it is written."""

    number: int
    before: tuple[SuspensionLine, ...]
    after: tuple[SuspensionLine, ...]
    is_written: bool


PRIVATE: Final = frozenset({DISCIPLINE_FILE, NOT_CLEARED_FILE})
"""Files that only staff may ever read."""


def decide_person(
    record: LeagueRecord,
    *,
    person: PersonId,
    ruled: Decided,
    terms: Mapping[str, str],
    at: datetime,
    writes: bool,
) -> Ruled:
    """Return what a decision does to a person's games; write it where asked to.

    `terms` are the cells games, until, game, ref and why of the row. A meeting that was held
    cites the article that asked for it, where none is given.

    Raises:
        InputFaults: everything that is wrong with the row, or with the season.
        WholeballError: there is no such season, or it cannot be kept.
    """
    if not writes:
        return _tried(record, person, ruled, terms, at)[0]
    with record.held():
        found, data = _tried(record, person, ruled, terms, at)
        record.write({DISCIPLINE_FILE: data}, private=PRIVATE & {DISCIPLINE_FILE})
    return Ruled(number=found.number, before=found.before, after=found.after, is_written=True)


def _tried(
    record: LeagueRecord,
    person: PersonId,
    ruled: Decided,
    terms: Mapping[str, str],
    at: datetime,
) -> tuple[Ruled, bytes]:
    before = read_folder(record)
    on = local_day(before, at)
    number = max((one.number for one in before.decisions), default=0) + 1
    if ruled == "meeting_held" and not terms["ref"]:
        terms = {**terms, "ref": _asking_article(before, person, on)}
    cells = {
        "ruling": str(number),
        "date": on.isoformat(),
        "person": neutral(str(person)),
        "ruled": ruled,
        **{name: neutral(text) for name, text in terms.items()},
    }
    row = tuple(cells.get(column.name, "") for column in DECISION_COLUMNS)
    data = with_rows(_standing(record, DISCIPLINE_FILE), [row], columns=DECISION_COLUMNS)
    after = read_folder(record, instead={DISCIPLINE_FILE: data})
    return Ruled(
        number=number,
        before=_of(suspensions_of(before, on), person),
        after=_of(suspensions_of(after, on), person),
        is_written=False,
    ), data


def article_of_meeting(record: LeagueRecord, person: PersonId, *, at: datetime) -> str:
    """Return the article by which a person waits for a meeting; empty for who does not.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    return _asking_article(read, person, local_day(read, at))


def _asking_article(read: SeasonFolder, person: PersonId, on: date) -> str:
    lines = _of(suspensions_of(read, on), person)
    return next((one.article for one in lines if one.waits), "")


def _of(shown: SuspensionsShown, person: PersonId) -> tuple[SuspensionLine, ...]:
    return tuple(one for one in shown.lines if one.person == person)


def _standing(record: LeagueRecord, name: str) -> bytes:
    return record.read(name, MOST_BYTES) if record.has(name) else b""


def block_person(record: LeagueRecord, person: PersonId, *, at: datetime) -> None:
    """Block a person at the gate from today on; the reason is kept elsewhere.

    Raises:
        InputFaults: everything that is wrong with the season, or would be with the row.
        WholeballError: the person is blocked already, or it cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        on = local_day(read, at)
        if person not in on_rosters(read):
            raise WholeballError(
                "Nobody of that code is on a roster.",
                fix="Nothing was changed. Choose a player of the list.",
                code="unknown_person",
            )
        if any(one.person == person and one.holds_on(on) for one in read.not_cleared):
            raise WholeballError(
                "This player is blocked at the gate already.",
                fix="Nothing was changed. Lift the block first, if another is meant.",
                code="duplicate",
            )
        row = (neutral(str(person)), on.isoformat(), "")
        data = with_rows(_standing(record, NOT_CLEARED_FILE), [row], columns=BLOCK_COLUMNS)
        read_folder(record, instead={NOT_CLEARED_FILE: data})
        record.write({NOT_CLEARED_FILE: data}, private=PRIVATE & {NOT_CLEARED_FILE})


def lift_block(record: LeagueRecord, person: PersonId, since: date, *, at: datetime) -> None:
    """Let a block at the gate end with yesterday, so that the person may play today.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such block that holds, or it cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        on = local_day(read, at)
        held = [one for one in read.not_cleared if one.person == person and one.since == since]
        if not held or not held[0].holds_on(on):
            raise WholeballError(
                "That block does not hold any more.",
                fix="Nothing was changed. Look at the list again.",
                code="conflict",
            )
        kept = [one for one in read.not_cleared if one is not held[0]]
        rows = [_cells(one.person, one.since, one.until) for one in kept]
        if since < on:
            rows.append(_cells(person, since, on - timedelta(days=1)))
        data = with_rows(b"", rows, columns=BLOCK_COLUMNS)
        read_folder(record, instead={NOT_CLEARED_FILE: data})
        record.write({NOT_CLEARED_FILE: data}, private=PRIVATE & {NOT_CLEARED_FILE})


def _cells(person: PersonId, since: date, until: date | None) -> tuple[str, str, str]:
    end = "" if until is None else until.isoformat()
    return neutral(str(person)), since.isoformat(), end
