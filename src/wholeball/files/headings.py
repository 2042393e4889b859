"""Finds the columns of a spreadsheet by the headings that people give them."""

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Final

from wholeball.kernel.faults import Fault, Place

SHOWN: Final = 40
"""Signs of a heading that are repeated to its reader."""


def by_heading(called: Mapping[str, str]) -> dict[str, str]:
    """Return the column that each heading means, from all that each is called, with commas."""
    return {
        heading: column
        for column, headings in called.items()
        for heading in headings.split(",")
    }


def in_words(heading: str) -> str:
    """Return the words of a heading, all small and without signs, as `by_heading` takes them."""
    return re.sub(r"[\W_]+", " ", heading.casefold()).strip()


def columns_in(
    names: Sequence[str], column_of: Callable[[str], str | None], *, file: str, row: int
) -> tuple[dict[str, int], list[Fault]]:
    """Return where each column stands that is known, and which headings are read as one before."""
    found: dict[str, int] = {}
    faults: list[Fault] = []
    for at, name in enumerate(names):
        column = column_of(name)
        if column is None:
            continue
        first = found.setdefault(column, at)
        if first != at:
            both = " and ".join(f"“{names[one].strip()[:SHOWN]}”" for one in (first, at))
            faults.append(
                Fault(
                    code="duplicate_column",
                    place=Place(file=file, row=row),
                    says=f"{both} are both read as {column}.",
                    cure="Give one of them another name.",
                )
            )
    return found, faults
