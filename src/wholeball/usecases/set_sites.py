"""Sets the sites of a season and which fields are at each: adds one, changes it, takes it out."""

from collections.abc import Collection, Mapping
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.closures import COLUMNS as CLOSURE_COLUMNS
from wholeball.files.closures import FILE as CLOSURES_FILE
from wholeball.files.fewer_rows import without_rows
from wholeball.files.fields import COLUMNS as FIELD_COLUMNS
from wholeball.files.fields import FILE as FIELDS_FILE
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.notices import COLUMNS as NOTICE_COLUMNS
from wholeball.files.notices import FILE as NOTICES_FILE
from wholeball.files.other_cells import with_cells, with_names
from wholeball.files.sites import COLUMNS, FILE
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import SiteId
from wholeball.league.place import Site, sites_of
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import counted, listed
from wholeball.store.record import DatabaseRecord
from wholeball.store.site_follows import follow_site
from wholeball.usecases.named_rows import (
    listed_some,
    named,
    normal,
    refuse_gone,
    refuse_twice,
    text_of,
)
from wholeball.usecases.show_sites import fields_known

_NAMING: Final = (
    (FIELDS_FILE, FIELD_COLUMNS),
    (CLOSURES_FILE, CLOSURE_COLUMNS),
    (NOTICES_FILE, NOTICE_COLUMNS),
)
"""The files beside the list of sites that name one, in a column `site`."""


def add_site(record: LeagueRecord, told: Site, fields: Collection[str]) -> None:
    """Add a site after those that there are; fields of another site move here.

    Raises:
        InputFaults: there is one of that name, or the season would have a fault; nothing was
            written.
        WholeballError: a field is not known any more.
    """
    with record.held():
        read = read_folder(record)
        refuse_twice(told.site, _names(read), column="site", file=FILE)
        row = tuple(neutral(_cells(told)[column.name]) for column in COLUMNS)
        changed = {FILE: with_rows(text_of(record, FILE), [row], columns=COLUMNS)}
        changed |= _with_fields(record, read, normal(told.site), fields)
        read_folder(record, instead=changed)
        record.write(changed)


def change_site(record: LeagueRecord, site: str, told: Site, fields: Collection[str]) -> None:
    """Change all that is said of a site; whatever names it follows another name.

    Fields of another site move here, and those that are not among the `fields` belong to none.

    Raises:
        InputFaults: there is one of that name, or the season would have a fault; nothing was
            written.
        WholeballError: it or a field is not there any more.
    """
    with record.held():
        read = read_folder(record)
        names = _names(read)
        refuse_gone(site, names, what="This site")
        others = [one for one in names if one != site]
        refuse_twice(told.site, others, column="site", file=FILE)
        changed = {
            FILE: with_cells(
                text_of(record, FILE),
                lambda row: _cells(told) if row["site"] == site else {},
                columns=COLUMNS,
            )
        }
        changed |= _with_fields(record, read, site, fields)
        if normal(told.site) != site:
            changed |= _renamed(record, changed, site, normal(told.site))
        read_folder(record, instead=changed)
        record.write(changed)


def change_site_on_site(
    record: DatabaseRecord, site: str, told: Site, fields: Collection[str]
) -> None:
    """Change a site, and let what people were told and searches that wait follow its name.

    Raises:
        InputFaults: as `change_site` says.
        WholeballError: as `change_site` says.
    """
    with record.held():
        change_site(record, site, told, fields)
        follow_site(record.season, site, normal(told.site))


def drop_site(record: LeagueRecord, site: str) -> None:
    """Take a site out that nothing names.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: it is not there any more, or something names it.
    """
    with record.held():
        read = read_folder(record)
        refuse_gone(site, _names(read), what="This site")
        _refuse_named(read, site)
        text = without_rows(text_of(record, FILE), lambda row: named(row, "site") == site)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def _names(read: SeasonFolder) -> list[str]:
    return [str(one.site) for one in read.sites]


def _cells(told: Site) -> dict[str, str]:
    return {column.name: getattr(told, column.name) for column in COLUMNS}


def _with_fields(
    record: LeagueRecord, read: SeasonFolder, site: str, fields: Collection[str]
) -> dict[str, bytes]:
    """Return fields.csv with some fields at a site and no others, or nothing where it is so.

    Once one is listed there all are: what the list lacks is known nowhere else.
    """
    known = fields_known(record, read)
    for field in fields:
        refuse_gone(field, known, what=f"Field {field}")
    now = {field: str(one) for field, one in sites_of(read.fields).items()}
    then = {
        field: site if field in fields else "" if one == site else one
        for field, one in ((field, now.get(field, "")) for field in known)
    }
    if all(then[field] == now.get(field, "") for field in known):
        return {}
    text = with_cells(
        text_of(record, FIELDS_FILE),
        lambda row: {"site": then[row["field"]]},
        columns=FIELD_COLUMNS,
    )
    held = {one.field for one in read.fields}
    more = [(neutral(field), neutral(then[field])) for field in known if field not in held]
    return {FIELDS_FILE: with_rows(text, more, columns=FIELD_COLUMNS) if more else text}


def _renamed(
    record: LeagueRecord, changed: Mapping[str, bytes], old: str, new: str
) -> dict[str, bytes]:
    """Return the files that name a site, as changed so far, with another name in its place."""
    return {
        file: with_names(text, "site", old, new, columns=columns)
        for file, columns in _NAMING
        if (text := changed.get(file) or text_of(record, file))
    }


def _refuse_named(read: SeasonFolder, site: str) -> None:
    fields = tuple(field for field, one in sites_of(read.fields).items() if one == site)
    closed = sum(one.site == site for one in read.planning.closures)
    told = sum(one.site == SiteId(site) for one in read.planning.notices)
    parts, cures = [], []
    if fields:
        parts.append(f"{counted(len(fields), 'field')} ({listed_some(fields)})")
        cures.append("Change the site and untick its fields, or tick them at another site.")
    if closed:
        parts.append(counted(closed, "closure"))
        cures.append("Open its closures again under Days off.")
    if told:
        parts.append(counted(told, "public word"))
        cures.append("A site that people were told of stays: change what is said of it.")
    if parts:
        raise WholeballError(
            f"{site} has {listed(tuple(parts))}.",
            fix=" ".join(("Nothing was changed.", *cures)),
            code="filled",
        )
