"""Is the rows of places and times: sites, fields, slots, closures, absences, public words."""

from typing import ClassVar

from django.db.models import UniqueConstraint
from django.db.models.functions import Lower

from wholeball.store.models.row import Row, cell, needed


class SiteRow(Row):
    """A site, and what its emergency page says."""

    FILE = "sites.csv"
    site = cell()
    address = cell()
    gate = cell()
    gate_opener = cell()
    aed = cell()
    calls = cell()
    meets = cell()
    shelter = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("site"),
            UniqueConstraint("season", Lower("site"), name="store_siterow_once"),
        ]


class FieldRow(Row):
    """A field, with its site if it has one."""

    FILE = "fields.csv"
    field = cell()
    site = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("field"),
            UniqueConstraint("season", Lower("field"), name="store_fieldrow_once"),
        ]


class SlotRow(Row):
    """A time at which a field is ours."""

    FILE = "slots.csv"
    field = cell()
    weekday = cell()
    date = cell()
    first_date = cell()
    last_date = cell()
    begins = cell("from")
    until = cell()
    lights_off = cell()
    permit_until = cell()
    minutes = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [*Row.Meta.constraints, needed("field", "begins")]


class ClosureRow(Row):
    """A time at which a field or a site cannot be used."""

    FILE = "closures.csv"
    field = cell()
    site = cell()
    date = cell()
    last_date = cell()
    begins = cell("from")
    until = cell()
    why = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [*Row.Meta.constraints, needed("date")]


class AbsenceRow(Row):
    """A time at which a team cannot play, or would rather not."""

    FILE = "absences.csv"
    team = cell()
    weekday = cell()
    date = cell()
    begins = cell("from")
    until = cell()
    strength = cell()
    cost = cell()
    why = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [*Row.Meta.constraints, needed("team")]


class NoticeRow(Row):
    """What the public was told of a night."""

    FILE = "notices.csv"
    date = cell()
    site = cell()
    field = cell()
    state = cell()
    next_word = cell()
    says = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [*Row.Meta.constraints, needed("date", "state")]
