"""Shows the sites of a season, the fields at each, and what its emergency page lacks."""

from collections.abc import Iterable
from dataclasses import dataclass

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.slots import COLUMNS as SLOT_COLUMNS
from wholeball.files.slots import FILE as SLOTS_FILE
from wholeball.files.table import read_table
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.league.place import Site, sites_of
from wholeball.league.record import LeagueRecord
from wholeball.reports.night_words import SITE_LABELS, unwritten
from wholeball.usecases.named_rows import text_of


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteShown:
    """A site, its fields, and the labels of what nobody wrote on its emergency page yet."""

    told: Site
    fields: tuple[str, ...]
    unwritten: tuple[str, ...]

    @property
    def written(self) -> int:
        """How many things its emergency page says."""
        return len(SITE_LABELS) - len(self.unwritten)


@dataclass(frozen=True, slots=True, kw_only=True)
class SitesShown:
    """The sites of a season in their order, and each field that it knows with its site or ""."""

    sites: tuple[SiteShown, ...]
    fields: tuple[tuple[str, str], ...]

    @property
    def loose(self) -> tuple[str, ...]:
        """The fields that belong to no site."""
        return tuple(field for field, site in self.fields if not site)


def show_sites(record: LeagueRecord) -> SitesShown:
    """Return the sites of a season, and the fields that it knows.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    where = sites_of(read.fields)
    known = fields_known(record, read)
    return SitesShown(
        sites=tuple(
            SiteShown(
                told=one,
                fields=tuple(field for field in known if where.get(field) == one.site),
                unwritten=unwritten(one),
            )
            for one in read.sites
        ),
        fields=tuple((field, f"{where.get(field, '')}") for field in known),
    )


def fields_known(record: LeagueRecord, read: SeasonFolder) -> tuple[str, ...]:
    """Return every field that something of a season names, each once, those of fields.csv first."""
    return tuple(dict.fromkeys(_named(record, read)))


def fields_to_name(record: LeagueRecord, read: SeasonFolder) -> tuple[str, ...]:
    """Return the fields that something may be said of, by name: those of fields.csv, or else all."""
    listed = {one.field for one in read.fields}
    return tuple(sorted(listed or fields_known(record, read)))


def _named(record: LeagueRecord, read: SeasonFolder) -> Iterable[str]:
    yield from (one.field for one in read.fields)
    yield from _of_slots(record)
    games: tuple[Fixture | OpenFixture, ...] = (*read.timetable, *read.open_fixtures)
    yield from sorted({one.field for one in games})
    yield from (one.field for one in read.planning.closures if one.field is not None)
    yield from (one.field for one in read.planning.notices if one.field is not None)


def _of_slots(record: LeagueRecord) -> Iterable[str]:
    data = text_of(record, SLOTS_FILE)
    lines = read_table(data, SLOT_COLUMNS, file=SLOTS_FILE).lines if data.strip() else []
    return (one.need("field", str) for one in lines)
