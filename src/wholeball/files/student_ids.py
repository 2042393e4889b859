"""Turns a student id into a code that tells nobody the id: a digest under a secret key."""

import hmac
import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final

from wholeball.files.cells import Refused
from wholeball.kernel.identity import PersonId

CHECK_FILE: Final = "id-key-check.txt"
"""The file of the season folder that tells whether a key is the one its codes were made with."""
SHORTEST_KEY: Final = 16
_ID: Final = re.compile(r"[0-9a-z][0-9a-z_/-]{0,39}")
_MANGLED: Final = re.compile(
    r"[0-9]+(?:[.,][0-9]+)+(?:e[+-]?[0-9]+)?|[0-9]+e[+-][0-9]+|#+", re.IGNORECASE
)
_SPACES: Final = re.compile(r"\s+")
_OTHERS: Final = re.compile(r"[^0-9]+")
_KEPT: Final = 3
_CHECKED: Final = b"which key is this"
_CHECK: Final = re.compile(r"^[0-9a-f]{16}$", re.MULTILINE)


@dataclass(frozen=True)
class IdKey:
    """The secret under which ids become codes; it is never shown, and never in a folder."""

    secret: bytes = field(repr=False)

    def code_of(self, student: str) -> PersonId:
        """Return the code of a student id as `student_id` reads it: HMAC-SHA-256 in hex.

        Source: RFC 2104 and FIPS 198-1 (HMAC), FIPS 180-4 (SHA-256).
        """
        digest = self._started.copy()
        digest.update(student.encode())
        return PersonId(digest.hexdigest())

    @cached_property
    def _started(self) -> hmac.HMAC:
        """The digest with the key taken in, which is the same for every id."""
        return hmac.new(self.secret, digestmod="sha256")

    @property
    def check(self) -> str:
        """What tells this key from another and does not tell the key; no id has spaces."""
        return hmac.digest(self.secret, _CHECKED, "sha256").hex()[:16]


def student_id(cell: str) -> str:
    """Return a student id without spaces and in small letters; it is text, and keeps its zeros."""
    told = _SPACES.sub("", cell).removeprefix("'").lower()
    if _MANGLED.fullmatch(told):
        raise mangled()
    if _ID.fullmatch(told) is None:
        allowed = "1 to 40 letters of A to Z, digits, and the signs - _ /"
        raise Refused(code="type", allowed=allowed, cure=f"Give an id of {allowed}.")
    return told


def mangled() -> Refused:
    """Return the refusal of an id that a spreadsheet has made a number of."""
    return Refused(
        code="mangled_id",
        allowed="the id as text, with the zeros it starts with",
        cure="A spreadsheet changed the id to a number. Set the column to text, paste the ids "
        "again, and export it.",
    )


def end_of(student: str) -> str:
    """Return the last three digits of an id; empty where that would be all its digits."""
    digits = student if student.isdecimal() else _OTHERS.sub("", student)
    return digits[-_KEPT:] if len(digits) > _KEPT else ""


def check_text(key: IdKey) -> bytes:
    """Return what the folder keeps about a key."""
    words = "Tells the key for student ids from any other key; it does not tell the key.\n"
    return f"{words}{key.check}\n".encode()


def is_other_key(key: IdKey, kept: bytes) -> bool:
    """Tell whether what a folder keeps was written for another key."""
    return key.check not in _CHECK.findall(kept.decode("utf-8", "replace"))
