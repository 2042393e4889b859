"""Parts a text at its scores, which a page keeps on one line: else they break behind the dash."""

import re
from typing import Final, NamedTuple

_SCORE: Final = re.compile("(?<!\\d)(\\d{1,3}\N{EN DASH}\\d{1,3})(?!\\d)", re.ASCII)


class Piece(NamedTuple):
    """A stretch of a text, and whether it is a score."""

    text: str
    is_score: bool


def score_parts(text: str) -> list[Piece]:
    """Return a text in pieces, each score one of its own."""
    pieces = (Piece(one, at % 2 == 1) for at, one in enumerate(_SCORE.split(text)))
    return [piece for piece in pieces if piece.text]
