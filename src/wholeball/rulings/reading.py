"""Reads named values of a rulebook: "goalkeeper.hold.then" is a word, a number or yes and no."""

from collections.abc import Mapping
from typing import TypeAlias

from wholeball.kernel.length import Length
from wholeball.rulebook.book import Rulebook
from wholeball.rulings.condition import NOT

Given: TypeAlias = Mapping[str, str]
"""Keys of the rulebook, each with the words that are enough, or "not" and words."""


def read(key: str, book: Rulebook) -> str:
    """Return a value of the rulebook as a word: yes, no, none or some for switches and numbers.

    Raises:
        ValueError: there is no such key, or it holds a table.
    """
    value: object = book
    for name in key.split("."):
        if not hasattr(value, name):
            raise ValueError(f"the rulebook has no key {key}")
        value = getattr(value, name)
    return _word(key, value)


def _word(key: str, value: object) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case int():
            return str(value) if value else "none"
        case Length():
            return "some" if value.measured("metric").tenths else "none"
        case str():
            return value
        case _:
            raise ValueError(f"{key} is no word and no number")


def is_given(given: Given, book: Rulebook) -> bool:
    """Tell whether the rulebook has one of the words for every key."""
    return all(_is_one(read(key, book), words.split()) for key, words in given.items())


def _is_one(word: str, words: list[str]) -> bool:
    if words[0] == NOT:
        return not _is_one(word, words[1:])
    return word in words or ("some" in words and word.isdigit())
