"""Says what is wrong with what a person gave, where, and how to mend it."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Level = Literal["fault", "doubt", "note"]
MOST_SHOWN = 100
MEND = "Mend what is listed and try again."


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where in a person's files something stands; what is unknown is None.

    `line` and `row` count from 1; the header of a table is row 1.
    """

    file: str
    line: int | None = None
    row: int | None = None
    column: str | None = None
    article: str | None = None

    def __str__(self) -> str:
        line = f" line {self.line}" if self.line is not None else ""
        row = f" row {self.row}" if self.row is not None else ""
        column = f", column {self.column}" if self.column is not None else ""
        return f"{self.file}{line}{row}{column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong: what is so, the value, what is allowed, and the cure.

    `code` is stable, so that tests and other programs need not read the words. `level` is
    "fault" (nothing is read), "doubt" (read, but likely a mistake) or "note".
    """

    code: str
    place: Place
    says: str
    value: str | None = None
    allowed: str | None = None
    cure: str
    level: Level = "fault"

    def __str__(self) -> str:
        return f"{self.place}: {self.says} {self.cure}"


class WholeballError(Exception):
    """Something the user can mend; pages and the command line show it as it stands."""

    def __init__(self, says: str, *, fix: str, code: str = "refused") -> None:
        """Keep what is wrong and the cure apart, so that each can be shown."""
        super().__init__(f"{says} {fix}")
        self.says = says
        self.fix = fix
        self.code = code


class InputFaults(WholeballError):
    """All that is wrong with one person's input; nothing of it was taken."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        """Take at least one fault; `code` is that of the first, or many_errors past 100."""
        self.faults = tuple(faults)
        if not self.faults:
            message = "an InputFaults needs a fault"
            raise ValueError(message)
        many = len(self.faults) > MOST_SHOWN
        first = self.faults[0]
        super().__init__(
            "\n".join(shown(self.faults)),
            fix=MEND,
            code="many_errors" if many else first.code,
        )

    def __str__(self) -> str:
        return f"{self.says}\n{self.fix}"


def shown(faults: tuple[Fault, ...]) -> list[str]:
    """Return one line a fault, at most 100, then a line with the count of the rest."""
    lines = [str(fault) for fault in faults[:MOST_SHOWN]]
    rest = len(faults) - MOST_SHOWN
    if rest > 0:
        lines.append(f"... and {rest:,} more like these; {len(faults):,} in all.")
    return lines
