"""Keeps the list of fields to the times of a season: new ones join it, idle ones leave it."""

from collections.abc import Iterable, Mapping

from wholeball.files.any_cell import neutral
from wholeball.files.fewer_rows import without_rows
from wholeball.files.fields import COLUMNS, FILE
from wholeball.files.folder import read_folder
from wholeball.files.more_rows import with_rows
from wholeball.kernel.faults import InputFaults
from wholeball.league.place import sites_of
from wholeball.league.record import LeagueRecord
from wholeball.usecases.named_rows import named, text_of


def with_listed(record: LeagueRecord, fields: Iterable[str]) -> dict[str, bytes]:
    """Return the list with some fields added at no site, or nothing where that changes nothing.

    A list without a field stays so: nothing is held to it. A field that differs from one of the
    list by its capitals alone is not added: it is that one, typed otherwise.
    """
    listed = {one.field.casefold() for one in read_folder(record).fields}
    new = [(neutral(one), "") for one in fields if one.casefold() not in listed]
    if not listed or not new:
        return {}
    return {FILE: with_rows(text_of(record, FILE), new, columns=COLUMNS)}


def without_idle(
    record: LeagueRecord, field: str, changed: Mapping[str, bytes]
) -> dict[str, bytes]:
    """Return the list without a field that is at no site and that nothing names, or nothing.

    `changed` is what the season's files hold by then.
    """
    read = read_folder(record, instead=changed)
    if field in sites_of(read.fields) or field not in (one.field for one in read.fields):
        return {}
    text = without_rows(text_of(record, FILE), lambda row: named(row, "field") == field)
    try:
        read_folder(record, instead={**changed, FILE: text})
    except InputFaults:
        return {}
    return {FILE: text}
