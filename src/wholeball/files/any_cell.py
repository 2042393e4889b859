"""Judges a cell whatever column it stands in: its length, its characters, how it starts."""

from typing import Final, NamedTuple

from wholeball.files.cells import LONGEST
from wholeball.kernel.faults import Level
from wholeball.kernel.refusals import toml_text
from wholeball.kernel.text import unreadable

SHOWN: Final = 80
"""How many characters of a cell a fault shows."""
_FORMULA: Final = ("=", "+", "@", "\t", "\r")
_RUN: Final = (*_FORMULA, "-")
_RISKY: Final = frozenset((*_RUN, "'"))


class Unfit(NamedTuple):
    """What is wrong with a cell."""

    code: str
    says: str
    cure: str
    value: str | None = None
    level: Level = "fault"


def unfit(cell: str, *, needed: bool) -> Unfit | None:
    """Return what makes a cell unfit, or None."""
    told = cell.strip()
    if not told and needed:
        return Unfit("missing", "the cell is empty.", "Fill it in.")
    if len(told) > LONGEST:
        says = f"the cell has {len(told):,} characters; at most {LONGEST:,}."
        return Unfit("limits", says, "Shorten it.", told[:SHOWN])
    hidden = None if cell.isprintable() else unreadable(cell)
    if hidden is not None:
        code, character = hidden
        says = f"the cell holds {character}, which nobody can see."
        return Unfit(code, says, "Delete it and type it again.", character)
    return _formula(told)


def neutral(cell: object) -> str:
    """Return a cell as it is written: words that a spreadsheet would run get an apostrophe."""
    return f"'{cell}" if isinstance(cell, str) and _may_run(cell) else str(cell)


def meant(cell: str) -> str:
    """Return what a cell says: without spaces around it and without the apostrophe of `neutral`."""
    told = cell.strip()
    return told[1:] if told.startswith("'") and _may_run(told) else told


def _may_run(cell: str) -> bool:
    """Tell whether a spreadsheet may run a cell, or a reader may take its apostrophe for ours."""
    return cell[:1] in _RISKY and cell.lstrip("'").startswith(_RUN)


def _formula(told: str) -> Unfit | None:
    if told.startswith(_FORMULA):
        says = f"{toml_text(told)} starts like a spreadsheet's formula."
        cure = "Start it with a letter or a digit, or with ' where it is meant as words."
        return Unfit("formula", says, cure, told[:SHOWN])
    if told.startswith("-"):
        says = f"{toml_text(told)} starts with a minus; it is kept as words."
        cure = "Nothing to do if it is meant."
        return Unfit("formula", says, cure, told[:SHOWN], "doubt")
    return None
