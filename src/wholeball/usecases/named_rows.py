"""Holds what whoever adds, changes or takes out a row that has a name asks of its table."""

from collections.abc import Collection, Mapping
from typing import Final
from unicodedata import normalize

from wholeball.files.any_cell import meant
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import listed

SHOWN: Final = 5
"""Teams that a refusal names at most."""


def text_of(record: LeagueRecord, file: str) -> bytes:
    """Return what stands in a file, or nothing where it is not there."""
    return record.read(file, MOST_BYTES) if record.has(file) else b""


def normal(name: str) -> str:
    """Return a name as readers of tables take it."""
    return normalize("NFC", name.strip())


def refuse_gone(name: str, names: Collection[str], *, what: str) -> None:
    """Refuse to change what is not there.

    Raises:
        WholeballError: it is not; `what` says of what, as a subject.
    """
    if name not in names:
        raise WholeballError(
            f"{what} is not there any more.",
            fix="Nothing was changed. Look at what is there now.",
            code="gone",
        )


def refuse_twice(name: str, names: Collection[str], *, column: str, file: str) -> None:
    """Refuse a name that another has, whatever its capitals.

    Raises:
        InputFaults: it is another's.
    """
    other = next((one for one in names if one.casefold() == normal(name).casefold()), None)
    if other is not None:
        raise InputFaults(
            [
                Fault(
                    code="duplicate",
                    place=Place(file=file, column=column),
                    says=f"There is {_a(column)} of that name: {other}.",
                    value=name,
                    cure="Give this one another name, or change that one.",
                )
            ]
        )


def _a(word: str) -> str:
    return f"an {word}" if word.startswith(("a", "e", "i", "o")) else f"a {word}"


def listed_some(names: tuple[str, ...]) -> str:
    """Return at most five names, and how many there are besides."""
    more = len(names) - SHOWN
    return listed((*names[:SHOWN], f"{more} more")) if more > 0 else listed(names)


def named(row: Mapping[str, str], column: str) -> str:
    """Return the name that a row as it stands has in a column, as readers take it."""
    return normal(meant(row.get(column, "")))
