"""Reads the answers of people who type a scorecard in, one line each."""

import re
import unicodedata
from collections.abc import Callable, Mapping
from datetime import date
from typing import Final, Literal, NamedTuple

from pydantic_core import PydanticCustomError

from wholeball.game.happenings import Signer
from wholeball.game.paper import score_of
from wholeball.game.state import Score
from wholeball.kernel.identity import Side
from wholeball.kernel.text import is_text, unreadable

_SIDES: Final[Mapping[str, Side]] = {"h": "home", "a": "away"}
_SIGNERS: Final[Mapping[str, Signer]] = {
    "h": "home_captain",
    "a": "away_captain",
    "o": "official",
    "s": "scorekeeper",
    "u": "supervisor",
}
_TWO = re.compile(r"(\d{1,2})\s+(\d{1,2})", re.ASCII)
MOST_NOTE: Final = 2_000


class Unclear(Exception):
    """An answer that cannot be read; its words say what can."""


def readable(typed: str) -> str:
    """Return an answer without spaces around it, its letters composed as files have them."""
    answer = unicodedata.normalize("NFC", typed.strip())
    hidden = unreadable(answer)
    if hidden is not None:
        raise Unclear(f"{hidden[1]} stands in it, which nobody can see.")
    if not is_text(answer):
        raise Unclear("It has bytes that are not UTF-8. Set the terminal to UTF-8.")
    return answer


def score(answer: str) -> Score | None:
    if not answer:
        return None
    two = _TWO.fullmatch(answer)
    try:
        return score_of(f"{two[1]}-{two[2]}" if two else answer)
    except PydanticCustomError:
        raise Unclear("Give two numbers, home first, such as 2-1.") from None


def side_of(answer: str) -> Side:
    side = _SIDES.get(answer.lower()[:1])
    if side is None:
        raise Unclear("Give h for home or a for away.")
    return side


def side_or_none(answer: str) -> Side | None:
    return side_of(answer) if answer else None


def forfeiting(answer: str) -> Side | Literal["both"]:
    return "both" if answer.lower() in ("b", "both") else side_of(answer)


def blamed(answer: str) -> Side | Literal["both"] | None:
    return forfeiting(answer) if answer else None


def marks(answer: str) -> str:
    letters = answer.lower().replace(" ", "")
    if not letters or not set(letters) <= set("ox-"):
        raise Unclear("Give o, x or - for each kick, such as ooxo.")
    return letters


def way(*, is_whole: bool) -> Callable[[str], str]:
    def read(answer: str) -> str:
        letter = answer.lower()[:1]
        if letter in ("m", "f", "d", "b") or (is_whole and not letter):
            return letter
        known = "nothing, " if is_whole else ""
        raise Unclear(f"Give {known}m, f, d or b.")

    return read


def yes(answer: str) -> bool:
    if answer.lower()[:1] not in ("y", "n"):
        raise Unclear("Give y or n.")
    return answer.lower()[:1] == "y"


def minutes(*, needed: bool) -> Callable[[str], int | None]:
    def read(answer: str) -> int | None:
        if not answer and not needed:
            return None
        if not re.fullmatch(r"[0-9]{1,2}", answer):
            raise Unclear("Give whole minutes, such as 6.")
        return int(answer)

    return read


def numbered(known: tuple[str, ...]) -> Callable[[str], str]:
    def read(answer: str) -> str:
        if re.fullmatch(r"[0-9]", answer) and 1 <= int(answer) <= len(known):
            return known[int(answer) - 1]
        raise Unclear(f"Give a number from 1 to {len(known)}.")

    return read


def reason_of(answer: str) -> str:
    if len(answer) > 500:
        raise Unclear(f"That has {len(answer):,} characters; at most 500 are kept.")
    return answer


class Signing(NamedTuple):
    """Who signed, in the order of the letters, and whether somebody refused."""

    signed: tuple[Signer, ...]
    has_refusals: bool

    @property
    def letters(self) -> str:
        """What is typed for it."""
        known = "".join(letter for letter, one in _SIGNERS.items() if one in self.signed)
        return known + ("r" if self.has_refusals else "")


def signing(answer: str) -> Signing:
    letters = _letters(answer)
    if not set(letters) <= {*_SIGNERS, "r"}:
        raise Unclear("Give letters of h, a, o, s, u and r, such as hao.")
    return Signing(_signers(letters), "r" in letters)


def signed_alone(answer: str) -> tuple[Signer, ...]:
    """Return who signed, where those who refused are asked for by themselves."""
    letters = _letters(answer)
    if not set(letters) <= set(_SIGNERS):
        raise Unclear(
            "Give letters of h, a, o, s and u, such as hao; who refused goes into the next field."
        )
    return _signers(letters)


def refusing(answer: str, signed: tuple[Signer, ...]) -> Signing:
    letters = _letters(answer)
    if not letters or not set(letters) <= set(_SIGNERS):
        raise Unclear("Give letters of h, a, o, s and u, such as a.")
    both = [letter for letter in letters if _SIGNERS[letter] in signed]
    if both:
        raise Unclear(f"{both[0]} signed: the same person does not refuse.")
    return Signing(_signers(letters), has_refusals=False)


def _letters(answer: str) -> str:
    return re.sub(r"[\s,]", "", answer.lower())


def _signers(letters: str) -> tuple[Signer, ...]:
    return tuple(signer for letter, signer in _SIGNERS.items() if letter in letters)


def day(answer: str) -> date | None:
    if not answer:
        return None
    try:
        return date.fromisoformat(answer)
    except ValueError:
        raise Unclear("Give year, month and day, such as 2026-09-20.") from None


def note(answer: str) -> str:
    if len(answer) > MOST_NOTE:
        raise Unclear(f"It has {len(answer):,} characters; at most {MOST_NOTE:,} are kept.")
    return answer
