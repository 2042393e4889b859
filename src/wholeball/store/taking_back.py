"""Takes back what a change did to a file of a season, where nobody has changed it there since."""

from wholeball.kernel.faults import WholeballError
from wholeball.store.changes import undone
from wholeball.store.contents import lines_of
from wholeball.store.forgetting import KEPT_FOR
from wholeball.store.kinds import Kind, kind_of
from wholeball.store.models import Change, SeasonFile
from wholeball.store.table_text import Sheet, text_of


def text_without(change: Change) -> bytes:
    """Return what a file would hold without a change. 2 queries.

    Raises:
        WholeballError: what it wrote was changed since or is no longer kept, or the file is
            not there any more.
    """
    if change.is_forgotten:
        raise WholeballError(
            f"What was changed in {change.name} is private, and no longer kept.",
            fix=f"After {KEPT_FOR.days} days it is mended by a new change.",
            code="forgotten",
        )
    file = SeasonFile.objects.filter(season=change.season_id, name=change.name).first()
    if file is None:
        raise WholeballError(
            f"{change.name} is not there any more.",
            fix="Take back what took it out first.",
            code="conflict",
        )
    lines = undone(change, lines_of(file))
    if kind_of(file.name) is not Kind.TABLE:
        return "".join(map(str, lines)).encode()
    rows = tuple(
        (number, tuple(cells)) for number, cells in enumerate(lines, start=file.head_row + 1)
    )
    sheet = Sheet(columns=tuple(file.columns.split()), head_row=file.head_row, rows=rows)
    return text_of(sheet, file=file.name)
