"""Holds what is known of a person apart from the teams they play for; all of it is private."""

from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

from wholeball.kernel.identity import PersonId

Gender: TypeAlias = Literal["woman", "man", "other"]
"""What a person privately says it is; nobody asks for proof."""
Membership: TypeAlias = Literal["club", "varsity", "former_varsity", "professional"]

Shown: TypeAlias = Literal["initial", "full", "hidden"]
"""How the public may read a name: initial and surname, all of it, or not at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """One person; `waiver_until` is the last day of a signed waiver, None where none is signed.

    `shown` is the person's own choice.
    """

    person: PersonId
    gender: Gender | None = None
    waiver_until: date | None = None
    member_of: tuple[Membership, ...] = ()
    shown: Shown = "initial"


@dataclass(frozen=True, slots=True, kw_only=True)
class NotCleared:
    """A block at the gate from one day to another, both included; its reason is kept elsewhere.

    `until` is None while nobody has lifted it.
    """

    person: PersonId
    since: date
    until: date | None = None

    def holds_on(self, day: date) -> bool:
        """Tell whether the person may not play on a day."""
        return self.since <= day and (self.until is None or day <= self.until)
