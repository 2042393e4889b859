"""Reads the answers of a sheet one by one, and gathers what is wrong with them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Final, TypeVar

from wholeball.game.paper import PaperCard
from wholeball.game.rules import GameRules
from wholeball.kernel.faults import Fault, Place
from wholeball.usecases import scorecard_answers as answers

FILE: Final = "the scorecard"
MOST_LINES: Final = 100
_T = TypeVar("_T")


@dataclass(slots=True)
class TypedAnswers:
    """What was typed, by the names of the sheet, over what was kept before."""

    typed: Mapping[str, str]
    rules: GameRules
    was: PaperCard
    faults: list[Fault] = field(default_factory=list)

    def wrong(self, name: str, cure: str) -> None:
        """Write down that an answer cannot be read, and what can."""
        self.faults.append(
            Fault(
                code="type",
                place=Place(file=FILE, column=name),
                says=f"{name} cannot be read.",
                value=self.typed.get(name, "")[:80],
                cure=cure,
            )
        )

    def told(self, name: str) -> bool:
        """Tell whether something is wrong with an answer already."""
        return any(one.place.column == name for one in self.faults)

    def read(
        self, name: str, read: Callable[[str], _T], otherwise: _T, *, is_long: bool = False
    ) -> _T:
        """Return an answer as it is read; a fault, and something else, where it cannot be."""
        given = self.typed.get(name, "").replace("\r\n", "\n")
        try:
            if is_long:
                return read("\n".join(map(answers.readable, given.strip().split("\n"))))
            return read(answers.readable(given))
        except answers.Unclear as unclear:
            self.wrong(name, str(unclear))
            return otherwise

    def lines(self, name: str, read: Callable[[str], _T | None]) -> list[_T]:
        """Return what each line says, without empty ones."""
        found: list[_T] = []
        lines = self.typed.get(name, "").strip().splitlines()
        if len(lines) > MOST_LINES:
            self.wrong(name, f"It has {len(lines):,} lines; at most {MOST_LINES} are read.")
            return found
        for number, line in enumerate(lines, start=1):
            try:
                one = read(answers.readable(line))
            except answers.Unclear as unclear:
                self.wrong(name, f"Line {number}: {unclear}")
                continue
            if one is not None:
                found.append(one)
        return found
