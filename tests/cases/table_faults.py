"""Lists what a person is told of a table that was read."""

from wholeball.files.table import Table


def wrong(table: Table) -> list[tuple[str, int | None, str | None, str, str, str]]:
    """Return all that a person is told of a table, with the level."""
    return [
        (one.level, one.place.row, one.place.column, one.code, one.says, one.cure)
        for one in table.faults
    ]
