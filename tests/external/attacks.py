"""Knows the rows about pages and machines by what they say, whichever ids they have."""

import re
from typing import Final, NamedTuple

import pytest

from external.cases import Case, read

SUBJECTS: Final = {
    "no token": r"without a CSRF token",
    "a look that changes": r"^GET to a changing address",
    "another's evaluation": r"by another official",
    "another's roster": r"roster POST by the captain",
    "a role in a form": r"role=\w+ added",
    "led away": r"^next=",
    "another host": r"^Host:",
    "an address to fetch": r"address https?://",
    "a feed": r"feed with a .*token",
    "guesses": r"wrong passwords",
    "a planted session": r"session id fixed",
    "packed": r"^Content-Encoding:",
    "nested": r"nested brackets",
    "many digits": r"integer with [\d,]+ digits",
    "odd numbers": r"^number = ",
    "half a letter": r"lone surrogate",
    "a picture that runs": r"\bSVG\b",
    "odd lists": r"^page=",
    "a tablet": r"tablet",
    "a full disk": r"disk full",
    "no disk to write": r"read-only|network share",
    "a kill": r"kill -9",
    "a newer backup": r"backup from a newer version",
    "a flipped byte": r"flipped byte",
    "a wrong clock": r"clock 1 day wrong",
    "no secret": r"secret key missing",
}
"""What rows are about, by the words that only they use."""

SIGNING_IN: Final = frozenset(
    {"no token", "led away", "another host", "guesses", "a planted session", "packed"}
)
AT_THE_DESK: Final = frozenset(
    {"no token", "a look that changes", "another's evaluation", "another's roster"}
    | {"a role in a form", "nested", "many digits", "odd numbers", "half a letter"}
    | {"a picture that runs", "odd lists"}
)
FROM_OUTSIDE: Final = frozenset({"an address to fetch", "a feed", "a tablet"})
OF_THE_MACHINE: Final = frozenset(
    {"no disk to write", "a newer backup", "a flipped byte", "a wrong clock", "no secret"}
)
WHILE_WRITING: Final = frozenset({"a full disk", "a kill"})
"""Which file of tests does which."""


class Outcome(NamedTuple):
    """What came of a row, as its `expected` says it."""

    outcome: str
    code: str


def rows_about(subjects: frozenset[str]) -> list[Case]:
    """Return the rows of pages and machines that are about some subjects."""
    return [row for row in _rows() if subjects & set(subjects_of(row))]


def all_rows() -> list[Case]:
    """Return every row of pages and machines; a file without any is a failure."""
    found = _rows()
    if not found:
        pytest.fail("bad_inputs.jsonl holds no row of pages or machines")
    return found


def subjects_of(row: Case) -> list[str]:
    """Return what a row is about."""
    said = text_of(row)
    return [name for name, words in SUBJECTS.items() if re.search(words, said, re.IGNORECASE)]


def text_of(row: Case) -> str:
    return str(row["input"]["text"])


def expected(row: Case) -> Outcome:
    return Outcome(row["expected"]["outcome"], row["expected"]["code"])


def number_in(said: str) -> int:
    """Return the first number of a row's words: "10 wrong passwords in a minute" gives 10."""
    found = re.search(r"\d[\d,]*", said)
    assert found is not None, said
    return int(found[0].replace(",", ""))


def _rows() -> list[Case]:
    return [row for row in read("bad_inputs.jsonl") if row["area"] in ("web", "ops")]
