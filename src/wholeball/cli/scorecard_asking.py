"""Asks one line of a paper scorecard, until an answer can be read."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from wholeball.game.paper import PaperCard
from wholeball.game.rules import GameRules
from wholeball.kernel.text import visible
from wholeball.usecases import scorecard_answers as answers

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """Asks by `ask`, which shows a prompt and returns a line, and says by `tell`.

    `was` is the card as it was entered before, empty where none was.
    """

    ask: Callable[[str], str]
    tell: Callable[[str], None]
    home: str
    away: str
    rules: GameRules
    was: PaperCard = field(default_factory=PaperCard)

    def until(self, prompt: str, read: Callable[[str], _T]) -> _T:
        """Ask until an answer can be read."""
        while True:
            try:
                return read(answers.readable(self.ask(prompt)))
            except answers.Unclear as unclear:
                self.tell(f"  {unclear}")

    def kept_or(self, what: str, kept: _T, shown: str, read: Callable[[str], _T]) -> _T:
        """Ask for what is kept by Enter alone; a lone - is read as no answer at all.

        Where nothing is `shown`, there is nothing to keep.
        """

        def answered(answer: str) -> _T:
            if not answer and shown:
                return kept
            return read("" if answer == "-" else answer)

        bracket = f" [{visible(shown)}]" if shown else ""
        return self.until(f"{what}{bracket}: ", answered)
