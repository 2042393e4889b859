"""Holds a table as it is handed to other programs: a header, and rows of plain values."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TypeAlias

PlainCell: TypeAlias = str | int | Decimal | date | None
"""A value; None is an empty cell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainTable:
    """A table of plain values, each row as long as the header; `title` names its sheet."""

    title: str
    header: tuple[str, ...]
    rows: tuple[tuple[PlainCell, ...], ...]

    def __post_init__(self) -> None:
        if any(len(row) != len(self.header) for row in self.rows):
            message = f"a row of {self.title!r} is not as long as the header"
            raise ValueError(message)
        cells = (cell for row in self.rows for cell in row)
        if any(isinstance(cell, Decimal) and not cell.is_finite() for cell in cells):
            message = f"a number of {self.title!r} is not finite"
            raise ValueError(message)
