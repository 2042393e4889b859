"""Writes the articles on persons and procedure: one says every part of the answer."""

from collections.abc import Mapping
from typing import Final

from wholeball.rulings.articles.write import Writer

beside = Writer("beside")
_NOBODY: Final = {
    "resumes": "as_it_was",
    "kicks_off": "none",
    "allowed": "unasked",
    "replaced_by": "unasked",
    "waits": "no",
    "reported": "no",
    "dealt": "none",
}


def says_that(**parts: str) -> Mapping[str, str]:
    """Return a whole answer in which nothing is said beside these parts."""
    return {**_NOBODY, **parts}
