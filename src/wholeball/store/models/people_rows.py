"""Is the rows of people: rosters, what is privately known, officials, crews, and fees."""

from typing import ClassVar

from django.db.models import Q, UniqueConstraint
from django.db.models.functions import Lower

from wholeball.store.models.row import Row, cell, needed


class RosterRow(Row):
    """A player of a team."""

    FILE = "rosters.csv"
    team = cell()
    number = cell()
    name = cell()
    captain = cell()
    person = cell()
    id_end = cell()
    added = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("team", "name"),
            UniqueConstraint(
                fields=["season", "team", "number"],
                condition=~Q(number=""),
                name="store_rosterrow_number",
            ),
            UniqueConstraint(
                fields=["season", "team", "person"],
                condition=~Q(person=""),
                name="store_rosterrow_person",
            ),
            UniqueConstraint(
                fields=["season", "team"],
                condition=Q(captain="yes"),
                name="store_rosterrow_captain",
            ),
        ]


class PersonRow(Row):
    """What is privately known of a person."""

    FILE = "people.csv"
    person = cell()
    gender = cell()
    waiver_until = cell()
    member_of = cell()
    shown = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("person"),
            UniqueConstraint(fields=["season", "person"], name="store_personrow_once"),
        ]


class NotClearedRow(Row):
    """A block at the gate, without a reason."""

    FILE = "not_cleared.csv"
    person = cell()
    since = cell()
    until = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("person", "since"),
            UniqueConstraint(
                fields=["season", "person", "since"], name="store_notclearedrow_once"
            ),
        ]


class DecisionRow(Row):
    """A decision about a person."""

    FILE = "discipline.csv"
    ruling = cell()
    date = cell()
    person = cell()
    game = cell()
    ruled = cell()
    games = cell()
    until = cell()
    ref = cell()
    why = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("ruling", "date", "person", "ruled", "ref", "why"),
            UniqueConstraint(fields=["season", "ruling"], name="store_decisionrow_once"),
        ]


class OfficialRow(Row):
    """An official, by the name that sheets show."""

    FILE = "officials.csv"
    official = cell()
    person = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("official"),
            UniqueConstraint("season", Lower("official"), name="store_officialrow_once"),
            UniqueConstraint(
                fields=["season", "person"],
                condition=~Q(person=""),
                name="store_officialrow_person",
            ),
        ]


class CrewRow(Row):
    """An official of a game's crew, with the role."""

    FILE = "crews.csv"
    game = cell()
    role = cell()
    official = cell()
    day = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("game", "role", "official"),
            UniqueConstraint(
                fields=["season", "game", "day", "official"], name="store_crewrow_once"
            ),
        ]


class FeeRow(Row):
    """What was paid or waived of the fee for a forfeit."""

    FILE = "fees.csv"
    date = cell()
    team = cell()
    game = cell()
    what = cell()
    amount = cell()
    why = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("date", "team", "game", "what", "amount"),
        ]
