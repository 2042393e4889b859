"""Finds the words of an article, whichever table it stands in."""

from typing import Final

from wholeball.rulebook.book import Path
from wholeball.rulebook.sentence import Dictionary, Words
from wholeball.rulebook.words import conduct, people, place, restarts, season, time

ALL: Final[Dictionary] = {
    **place.WORDS,
    **people.WORDS,
    **time.WORDS,
    **restarts.WORDS,
    **conduct.WORDS,
    **season.WORDS,
}


def words(path: Path) -> Words:
    """Return an article's heading and its sentences.

    Raises:
        KeyError: no article stands at that path.
    """
    return ALL[path]
