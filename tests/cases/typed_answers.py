"""Types answers at the terminal's dialogue of a scorecard, and keeps what was asked and said."""

from typing import Final

from cases.paper_cards import LEAGUE
from wholeball.cli.scorecard_dialogue import Dialogue
from wholeball.game.paper import PaperCard
from wholeball.game.rules import GameRules

ORDINARY: Final = "1-1\n2-1\n\nh7 dissent\na10 trip\n\n\n4\n5\nhao\n\n"
"""What is typed for 3-2, two yellows, ratings and three signatures; each \\n is Enter."""


class Person:
    """Answers prompts one after the other, and keeps what was asked and said."""

    def __init__(self, text: str) -> None:
        self.lines = text.splitlines()
        self.asked: list[str] = []
        self.told: list[str] = []

    def answer(self, prompt: str) -> str:
        """Return the next answer; where there is none the terminal has ended."""
        self.asked.append(prompt)
        if not self.lines:
            raise EOFError
        return self.lines.pop(0)


def typed_card(
    text: str, rules: GameRules = LEAGUE, *, was: PaperCard | None = None
) -> tuple[PaperCard, Person]:
    """Return the scorecard that answers make, all of which were asked for, and who typed them."""
    person = Person(text)
    dialogue = Dialogue(
        ask=person.answer,
        tell=person.told.append,
        home="Ash",
        away="Birch",
        rules=rules,
        was=was or PaperCard(),
    )
    card = dialogue.card()
    assert person.lines == []
    return card, person
