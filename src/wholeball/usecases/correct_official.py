"""Corrects the name of an official wherever a season has it, and takes out one who has left."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from wholeball.files.fewer_rows import without_rows
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.official_names import FILES, renamed, sealed
from wholeball.files.officials import FILE
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.league.texts import Changing
from wholeball.rulebook.sentence import listed
from wholeball.store.official_access import follow_official, works_elsewhere
from wholeball.store.record import DatabaseRecord
from wholeball.usecases.named_rows import named, normal, refuse_gone, refuse_twice, text_of
from wholeball.usecases.show_officials import OfficialShown, WorkedGame, official_of

_SHOWN: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyStays:
    """Why an official stays listed, and what can be done about it."""

    says: str
    cure: str


def correct_official(record: LeagueRecord, official: str, name: str) -> None:
    """Call an official otherwise in every file that names one: all of them, or none.

    Raises:
        InputFaults: there is an official of that name, or the season would have a fault.
        WholeballError: it is not there any more, or something names it that is sealed.
    """
    with record.held():
        names = _names(read_folder(record))
        refuse_gone(official, names, what="This official")
        others = [one for one in names if one != official]
        refuse_twice(name, others, column="official", file=FILE)
        _refuse_sealed(record, official)
        changed = renamed(_texts(record), official, normal(name))
        if changed:
            read_folder(record, instead=changed)
            record.write(changed)


def correct_official_on_site(
    record: DatabaseRecord, official: str, name: str, *, at: datetime
) -> str:
    """Call an official otherwise, and let roles, invitations and feeds follow: all, or none.

    The name is returned as it is kept.

    Raises:
        InputFaults: there is an official of that name, or the season would have a fault.
        WholeballError: it is not there any more, something names it that is sealed, or a role
            by that name holds in another season that lists one of the names as well.
    """
    new = normal(name)
    with record.held():
        _refuse_elsewhere(record, official, new, at)
        correct_official(record, official, new)
        follow_official(record.season, official, new)
    return new


def drop_official(record: LeagueRecord, official: str, *, at: datetime) -> None:
    """Take somebody who has left out of the officials, once no crew names them.

    Raises:
        InputFaults: the season would have a fault without them; nothing was written.
        WholeballError: they are not there any more, or a crew names them.
    """
    with record.held():
        read = read_folder(record)
        refuse_gone(official, _names(read), what="This official")
        _refuse_on_crews(read, official, at)
        text = without_rows(
            text_of(record, FILE), lambda row: named(row, "official") == official
        )
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def why_stays(shown: OfficialShown) -> WhyStays | None:
    """Return why an official cannot be taken out, or None where no crew names them."""
    if shown.to_come:
        return WhyStays(
            says=f"{shown.official} is on the crew of {_games(shown.to_come)}.",
            cure=f"Give {'it' if len(shown.to_come) == 1 else 'them'} to somebody else first.",
        )
    if shown.past:
        return WhyStays(
            says=f"{shown.official} was on the crew of {_games(shown.past)}.",
            cure="Whoever worked a game stays listed, so that it stays known who did. There is"
            " nothing to do: name somebody else from now on.",
        )
    return None


def _names(read: SeasonFolder) -> list[str]:
    return [one.official for one in read.officials]


def _texts(record: LeagueRecord) -> dict[str, bytes]:
    return {name: record.read(name, MOST_BYTES) for name in FILES if record.has(name)}


def _refuse_sealed(record: LeagueRecord, official: str) -> None:
    """Refuse where the name stands in what is kept for ever as it was told."""
    now = record.as_it_stands() if isinstance(record, Changing) else record
    found = tuple(sealed(now, official))
    if found:
        raise WholeballError(
            f"{official} has signed what is sealed: {_some(found)}.",
            fix="Nothing was changed. What was recorded stays as it was signed, so the official "
            "keeps that name here: give the right one in the next season.",
            code="sealed",
        )


def _refuse_elsewhere(record: DatabaseRecord, old: str, new: str, at: datetime) -> None:
    """Refuse where a role of every season would be another's in a season beside this one."""
    other = works_elsewhere(record.season, old, new, at=at)
    if other is not None:
        raise WholeballError(
            f"{old} has a role in every season, and {other.season} lists {other.official} too.",
            fix="Nothing was changed: the role would be by the wrong name there. Keep the name "
            "here, and give the right one in the next season.",
            code="elsewhere",
        )


def _refuse_on_crews(read: SeasonFolder, official: str, at: datetime) -> None:
    why = why_stays(official_of(read, official, at=at))
    if why is not None:
        raise WholeballError(why.says, fix=f"Nothing was changed. {why.cure}", code="on_crew")


def _games(worked: Iterable[WorkedGame]) -> str:
    return _some(one.says for one in worked)


def _some(words: Iterable[str]) -> str:
    """Return the first of some words, and how many there are besides."""
    every = tuple(words)
    more = len(every) - _SHOWN
    return listed((*every[:_SHOWN], f"{more} more") if more > 0 else every)
