"""Writes what each person is told when games change: captains and officials concerned, alone."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias

Role: TypeAlias = Literal["captain", "official"]
Key: TypeAlias = tuple[Role, str]
"""A captain by their team, an official by their name."""
_FOOT: Final = (
    "You are told because you are {who}. Answer whoever runs the league, not this message."
)

LONGEST: Final = 200
"""Letters of a subject, as many as the table of messages keeps."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """Where captains and officials are reached; who has no account has no address."""

    addresses: Mapping[Key, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """One message to one person; without an address somebody tells them in person."""

    who: str
    address: str
    subject: str
    body: str


def letters(
    says: Mapping[Key, Iterable[str]], reached: Reached, *, subject: str, lead: str
) -> tuple[Letter, ...]:
    """Return a message to each person, who reads of their own games and no others.

    A subject that is too long for what keeps it ends early: the message itself says all.
    """
    found, subject = [], subject if len(subject) <= LONGEST else f"{subject[: LONGEST - 1]}…"
    for key, sentences in sorted(says.items()):
        who = _who(key)
        body = "\n".join((lead, "", *sentences, "", _FOOT.format(who=who)))
        found += [
            Letter(
                who=f"{who[0].upper()}{who[1:]}", address=address, subject=subject, body=body
            )
            for address in reached.addresses.get(key, ("",))
        ]
    return tuple(found)


def _who(key: Key) -> str:
    role, name = key
    return f"captain of {name}" if role == "captain" else f"an official: {name}"
