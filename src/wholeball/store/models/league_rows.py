"""Is the rows of who plays: divisions, blocks, teams, and who asks for a place."""

from typing import ClassVar

from django.db.models import UniqueConstraint
from django.db.models.functions import Lower

from wholeball.store.models.row import Row, cell, needed


class DivisionRow(Row):
    """A division."""

    FILE = "divisions.csv"
    division = cell()
    league = cell()
    level = cell()
    kind = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("division"),
            UniqueConstraint("season", Lower("division"), name="store_divisionrow_once"),
        ]


class BlockRow(Row):
    """A block: when a division plays."""

    FILE = "blocks.csv"
    block = cell()
    division = cell()
    weekday = cell()
    begins = cell("from")
    until = cell()
    places = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("block", "division", "weekday", "begins", "until", "places"),
            UniqueConstraint("season", Lower("block"), name="store_blockrow_once"),
        ]


class TeamRow(Row):
    """A team."""

    FILE = "teams.csv"
    team = cell()
    pool = cell()
    colours = cell()
    second_colours = cell()
    division = cell()
    block = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("team"),
            UniqueConstraint("season", Lower("team"), name="store_teamrow_once"),
        ]


class SignUpRow(Row):
    """A team that asks for a place."""

    FILE = "sign_ups.csv"
    team = cell()
    block = cell()
    at = cell()
    captain = cell()
    players = cell()
    colours = cell()
    second_colours = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("team", "block", "at"),
            UniqueConstraint("season", Lower("team"), "block", name="store_signuprow_once"),
        ]


class AloneRow(Row):
    """A player who signed up without a team."""

    FILE = "alone.csv"
    person = cell()
    name = cell()
    block = cell()
    at = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("person", "name", "block", "at"),
            UniqueConstraint("season", "person", "block", name="store_alonerow_once"),
        ]
