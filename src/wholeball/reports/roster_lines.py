"""Sets the lines of a roster: what stands on each, and how many lines a long name takes."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final
from unicodedata import combining, east_asian_width

from wholeball.league.player import Player

NAME_LETTERS: Final = 28
"""Letters of a name on one line, counted on the safe side."""

FIGURE_SPACE: Final = "\N{FIGURE SPACE}"
"""As wide as a digit, so that names stand below each other."""

GAP: Final = 6 * " "
"""From the numbers over their line to the names."""

ZERO_WIDTH_SPACE: Final = "\N{ZERO WIDTH SPACE}"
LONGEST_WORD: Final = 16
"""Letters of a word that fit wherever a name stands, however wide they are."""

LAST_LATIN: Final = "\u024f"
WIDEST: Final = 1.4
_WIDE: Final = frozenset("MWmw@%&")


@dataclass(frozen=True, slots=True)
class RosterLine:
    """A player's number or nothing and name as one text, and how many lines high it is.

    One that `may_wrap` may need more than one line.
    """

    text: str
    high: int
    may_wrap: bool


def roster_lines(players: Sequence[Player]) -> list[RosterLine]:
    """Return the lines of a roster in its order."""
    return [_line(player) for player in players]


def lines_of(text: str, letters: int) -> int:
    """Return how many lines of so many letters a text takes, counted on the safe side."""
    if len(text) * WIDEST <= letters and text.isascii():
        return 1
    lines, used = 1, 0.0
    for word in text.split(" "):
        wide = letters_wide(word)
        if used and used + 1 + wide > letters:
            lines, used = lines + 1, 0.0
        lines += max(ceil(wide / letters) - 1, 0)
        used += (1 if used else 0) + min(wide, letters)
    return lines


def letters_wide(text: str) -> float:
    """Return the width of a text in ordinary letters; letters that stand alone are wider."""
    if text.isascii():
        return len(text) + (WIDEST - 1) * sum(map(text.count, _WIDE))
    return sum(map(_wide, text))


def _wide(letter: str) -> float:
    if combining(letter):
        return 0
    if east_asian_width(letter) in "WF":
        return 2
    return WIDEST if letter in _WIDE else 1


def _line(player: Player) -> RosterLine:
    number = "" if player.number is None else str(player.number)
    name = f"{player.name} (C)" if player.is_captain else player.name
    text = f"{number:{FIGURE_SPACE}<2}{GAP}{breakable(name)}"
    high = lines_of(name, NAME_LETTERS)
    return RosterLine(text, high, high > 1 or is_foreign(name))


def breakable(text: str) -> str:
    """Return a text whose long words may be broken anywhere, so that none runs off a sheet."""
    if len(text) <= LONGEST_WORD:
        return text
    return " ".join(
        word if len(word) <= LONGEST_WORD else ZERO_WIDTH_SPACE.join(word)
        for word in text.split(" ")
    )


def is_foreign(text: str) -> bool:
    """Tell whether a text has letters that the shipped face lacks, whose width is not known."""
    return any(letter > LAST_LATIN for letter in text)
