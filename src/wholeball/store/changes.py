"""Says what writes changed, in words, and puts back what one of them changed."""

from collections.abc import Collection, Sequence
from datetime import UTC
from typing import Final, TypeAlias

from wholeball.kernel.faults import WholeballError
from wholeball.store.models import TABLES, Change, Season
from wholeball.store.models.tables import fields_of
from wholeball.store.rows import same_ends
from wholeball.store.toml_words import in_words

PRIVATE: Final = frozenset({"people.csv", "not_cleared.csv", "discipline.csv"})
"""Files whose rows are shown to nobody who does not ask for them."""
REPORTS: Final = "reports/"
"""The folder of what people saw of incidents, all of it private."""
_OF_TEAMS: Final = frozenset({"rosters.csv"})
"""Files that captains write, each for one team: of other teams nothing is told, nor in the way."""
_MOST: Final = 3
Line: TypeAlias = str | Sequence[str]


def changed(old: Sequence[Line], new: Sequence[Line]) -> tuple[int, list[Line], list[Line]]:
    """Return from which line on two texts differ, the lines that went, and those that came."""
    first, behind = same_ends(tuple(old), tuple(new))
    return first, [*old[first : len(old) - behind]], [*new[first : len(new) - behind]]


def changes_since(season: Season, version: int, names: Collection[str]) -> list[Change]:
    """Return what was changed in some files after a version, oldest first. 1 query."""
    found = Change.objects.filter(season=season, version__gt=version, name__in=names)
    return list(found.select_related("account").order_by("version", "name"))


def is_private(name: str) -> bool:
    """Tell whether a text of a season is for those alone who ask for it."""
    return name in PRIVATE or name.startswith(REPORTS)


def told(change: Change) -> str:
    """Say who changed what: "timetable.csv, by Kim at 2026-11-26 09:05 UTC: ...".

    Of a private file only that it was changed.
    """
    rows = rows_told(change)
    return f"{_head(change)}: {rows}" if rows else _head(change)


def rows_told(change: Change) -> str:
    """Say which rows a change took out and wrote in; nothing of a private file."""
    if is_private(change.name):
        return ""
    parts = [
        f"{word}: {_shown(change.name, lines)}"
        for word, lines in (("taken out", change.gone), ("written in", change.came))
        if lines
    ]
    return "; ".join(parts)


def _head(change: Change) -> str:
    who = f", by {change.account}" if change.account is not None else ""
    at = f"{change.at.astimezone(UTC):%Y-%m-%d %H:%M} UTC"
    return f"{change.name}{who} at {at}"


def conflict(changes: Sequence[Change]) -> WholeballError:
    """Return what refuses a write upon an older version."""
    said = ". ".join(
        _head(change) if change.name in _OF_TEAMS else told(change) for change in changes
    )
    return WholeballError(
        f"It was changed while you worked on it. {said}.",
        fix="Nothing of yours was written. Look at what changed, and make your change to that.",
        code="conflict",
    )


def clashes(change: Change, gone: Sequence[Line], came: Sequence[Line]) -> bool:
    """Tell whether lines that go from a file, and come, are not apart from what a change did.

    Rows of rosters are apart where they are of different teams.
    """
    if not gone and not came:
        return False
    if change.name not in _OF_TEAMS or change.is_forgotten:
        return True
    return bool(_teams(change.name, gone, came) & _teams(change.name, change.gone, change.came))


def _teams(name: str, *sides: Sequence[Line]) -> frozenset[str]:
    """Return the teams of some rows of a file."""
    column = list(fields_of(name)).index("team")
    return frozenset(row[column] for side in sides for row in side)


def undone(change: Change, lines: Sequence[Line]) -> list[Line]:
    """Return the lines of a file as they are now, without what a change did to them.

    Raises:
        WholeballError: what it wrote has been changed since, or what it took out stands again.
    """
    now, came = [*map(_plain, lines)], [*map(_plain, change.came)]
    if not came:
        _refuse_standing(change, now)
    places = [change.place, *range(len(now) - len(came) + 1)] if came else [change.place]
    for place in places:
        if place <= len(now) and now[place : place + len(came)] == came:
            return [*lines[:place], *change.gone, *lines[place + len(came) :]]
    raise WholeballError(
        f"{change.name} was changed again since then, at the same place.",
        fix="Take back the later change first, or mend it by hand.",
        code="conflict",
    )


def _refuse_standing(change: Change, now: Sequence[Line]) -> None:
    """Refuse to write what a change took out, and nothing instead, where it stands again.

    Rows stand in a table wherever they are, and lines of a text where they stood: others may be
    alike.
    """
    gone = [*map(_plain, change.gone)]
    places = range(len(now) - len(gone) + 1) if change.name in TABLES else (change.place,)
    if any(now[place : place + len(gone)] == gone for place in places):
        raise WholeballError(
            f"What was taken out of {change.name} stands there again.",
            fix="There is nothing to take back.",
            code="conflict",
        )


def _plain(line: Line) -> Line:
    return line if isinstance(line, str) else [*line]


def _shown(name: str, lines: Sequence[Line]) -> str:
    some = [_line(name, line) for line in lines[:_MOST]]
    rest = len(lines) - _MOST
    what = "rows" if name in TABLES else "lines"
    return " | ".join(some) + (f" and {rest:,} more {what}" if rest > 0 else "")


def _line(name: str, line: Line) -> str:
    if not isinstance(line, str):
        return _row(line)
    return in_words(line.strip()) if name.endswith(".toml") else line.strip()


def _row(cells: Sequence[str]) -> str:
    return ", ".join(filter(None, cells))
