"""Names the rows of each table of a season, by the name of its file."""

from types import MappingProxyType
from typing import Final

from wholeball.store.models import game_rows, league_rows, people_rows, place_rows
from wholeball.store.models.row import Row

_ALL: Final[tuple[type[Row], ...]] = (
    league_rows.DivisionRow,
    league_rows.BlockRow,
    league_rows.TeamRow,
    league_rows.SignUpRow,
    league_rows.AloneRow,
    game_rows.FixtureRow,
    game_rows.ResultRow,
    game_rows.SeedRow,
    game_rows.RulingRow,
    game_rows.PublishedRow,
    people_rows.RosterRow,
    people_rows.PersonRow,
    people_rows.NotClearedRow,
    people_rows.DecisionRow,
    people_rows.OfficialRow,
    people_rows.CrewRow,
    people_rows.FeeRow,
    place_rows.SiteRow,
    place_rows.FieldRow,
    place_rows.SlotRow,
    place_rows.ClosureRow,
    place_rows.AbsenceRow,
    place_rows.NoticeRow,
)

TABLES: Final = MappingProxyType({model.FILE: model for model in _ALL})
"""The model of each file's rows."""

_KEPT: Final = frozenset({"id", "season", "position"})
_FIELDS: Final = {
    model.FILE: {
        field.db_column or field.name: field.name
        for field in model._meta.concrete_fields
        if field.name not in _KEPT
    }
    for model in _ALL
}


def fields_of(file: str) -> dict[str, str]:
    """Return the field of each column of a table, in their order."""
    return _FIELDS[file]
