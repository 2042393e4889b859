"""Says what is said of a throw-in as a house says it that has the ball kicked in."""

from typing import Final

from wholeball.rulebook.book import Rulebook

_SAID: Final = (
    ("throw-in, or the kick-in that stands in for it", "kick-in"),
    ("throw-in", "kick-in"),
    ("Throw-in", "Kick-in"),
    ("thrown in", "kicked in"),
    ("Thrown in", "Kicked in"),
    ("ball is thrown", "ball is kicked in"),
    ("ball been thrown", "ball been kicked in"),
    ("side that throws", "side that kicks in"),
    ("thrower", "kicker"),
    ("Thrower", "Kicker"),
)
"""Words of the Laws and those that stand in for them, the longest first."""


def as_put_in(text: str, book: Rulebook) -> str:
    """Return a text of rulings in the words of a rulebook: of throw-ins, or of kick-ins."""
    if book.throw_in.method == "throw":
        return text
    for thrown, kicked in _SAID:
        text = text.replace(thrown, kicked)
    return text
