"""Reads one cell of a table into the value it stands for."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from typing import Final, TypeAlias

from wholeball.kernel.nearest import did_you_mean

LONGEST: Final = 1_000
LONGEST_NAME: Final = 80
_DIGITS = re.compile(r"[0-9]{1,9}")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_FAR_DAY = re.compile(r"[0-9]{5,}-[0-9]{2}-[0-9]{2}")
_OTHER_DAY = re.compile(r"[0-9]{1,2}[-/. ][0-9]{1,2}[-/. ][0-9]{2,4}")
_MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}[ T][0-9]{2}:[0-9]{2}")
_TIME = re.compile(r"[0-9]{1,2}:[0-9]{2}")
_DECIMAL = re.compile(r"[0-9]{1,6}([.,][0-9]{1,4})?")


class Refused(Exception):
    """A cell that stands for no value: the stable code, what is allowed, and the cure."""

    def __init__(self, *, code: str, allowed: str, cure: str) -> None:
        """Keep the three apart, so that a fault can show each."""
        super().__init__(cure)
        self.code = code
        self.allowed = allowed
        self.cure = cure


Cell: TypeAlias = str | int | Decimal | date | time
Reader: TypeAlias = Callable[[str], Cell]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table: how its cells are read, and whether they must be there."""

    name: str
    read: Reader
    needed: bool = True


def text(cell: str) -> str:
    """Return the words of a cell."""
    return cell


def one_line(cell: str) -> str:
    """Return a name of at most 80 characters on one line, such as a team's or a game's."""
    if "\n" in cell or "\t" in cell:
        raise Refused(code="control_char", allowed="one line", cure="Write it on one line.")
    if len(cell) > LONGEST_NAME:
        allowed = f"at most {LONGEST_NAME} characters"
        raise Refused(code="limits", allowed=allowed, cure=f"Shorten it: {allowed}.")
    return cell


def whole(least: int, most: int) -> Reader:
    """Return a reader of whole numbers in plain digits, from least to most."""
    allowed = f"{least:,} to {most:,}"

    def read(cell: str) -> int:
        if _DIGITS.fullmatch(cell) is None:
            raise Refused(
                code="type", allowed=allowed, cure=f"Give a whole number, {allowed}, in digits."
            )
        if not least <= int(cell) <= most:
            raise Refused(code="range", allowed=allowed, cure=f"Give {allowed}.")
        return int(cell)

    return read


def decimal(cell: str) -> Decimal:
    """Return an exact number of 0 or more, written with a point or a comma."""
    if _DECIMAL.fullmatch(cell) is None:
        raise Refused(
            code="type", allowed="a number such as 3.5", cure="Give a number such as 3.5."
        )
    return Decimal(cell.replace(",", "."))


def day(cell: str) -> date:
    """Return a day written as year-month-day; other orders are ambiguous and refused."""
    allowed = "a day such as 2026-09-15"
    if _FAR_DAY.fullmatch(cell) is not None:
        raise Refused(code="range", allowed=allowed, cure="A year has four digits.")
    if _DAY.fullmatch(cell) is None:
        code = "date" if _OTHER_DAY.fullmatch(cell) is None else "ambiguous"
        raise Refused(code=code, allowed=allowed, cure=f"Write {allowed}.")
    try:
        return date.fromisoformat(cell)
    except ValueError as error:
        raise Refused(code="date", allowed=allowed, cure="There is no such day.") from error


def clock_time(cell: str) -> time:
    """Return a local time of the 24-hour clock, such as 19:05 or 9:30."""
    allowed = "a time such as 19:05"
    if _TIME.fullmatch(cell) is None:
        cure = f"Write {allowed}, on the 24-hour clock."
        raise Refused(code="time", allowed=allowed, cure=cure)
    try:
        return time.fromisoformat(cell.zfill(5))
    except ValueError as error:
        raise Refused(code="time", allowed=allowed, cure="There is no such time.") from error


def moment(cell: str) -> datetime:
    """Return a day and a local time of the 24-hour clock, such as 2026-08-20 09:05."""
    allowed = "a day and a time such as 2026-08-20 09:05"
    if _MOMENT.fullmatch(cell) is None:
        raise Refused(code="date", allowed=allowed, cure=f"Write {allowed}.")
    try:
        return datetime.fromisoformat(cell)
    except ValueError as error:
        raise Refused(
            code="date", allowed=allowed, cure="There is no such day or time."
        ) from error


def some_of(*words: str) -> Reader:
    """Return a reader of some words with spaces between them, in any case, each once."""

    def read(cell: str) -> str:
        told = list(dict.fromkeys(cell.lower().split()))
        wrong = next((word for word in told if word not in words), None)
        if wrong is not None:
            raise Refused(
                code="unknown_value",
                allowed=", ".join(words),
                cure=f"{did_you_mean(wrong, words)} Put a space between two.",
            )
        return " ".join(told)

    return read


def one_of(*words: str) -> Reader:
    """Return a reader of one of some words, in any case."""

    def read(cell: str) -> str:
        if cell.lower() not in words:
            raise Refused(
                code="unknown_value", allowed=", ".join(words), cure=did_you_mean(cell, words)
            )
        return cell.lower()

    return read
