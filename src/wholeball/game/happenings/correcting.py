"""Declares what is recorded about other entries: corrections, answers, certification."""

from typing import Annotated, Literal

from pydantic import Field

from wholeball.game.happenings.record import EventId, Recorded, Signer, Words
from wholeball.kernel.identity import Side


class Retracted(Recorded):
    """An entry was wrong: it never happened."""

    type = "retract"
    target: EventId


class Disallowed(Recorded):
    """A goal does not count, whoever entered it."""

    type = "disallow"
    target: EventId
    reason: Annotated[str, Field(max_length=200)] = ""


class Amended(Recorded):
    """One value of an entry was written down wrongly."""

    type = "amend"
    target: EventId
    key: Literal["side", "number", "own", "reason", "period", "clock"]
    value: Side | Annotated[int, Field(ge=0, le=86_400)] | bool | Words | None


class Answered(Recorded):
    """A person answered a question that an entry raised; `asked` is the question's code."""

    type = "answer"
    target: EventId
    asked: Annotated[str, Field(max_length=40)]
    answer: Literal["counts", "does_not_count", "as_it_is"]
    by: Signer
    reason: Annotated[str, Field(max_length=500)] = ""


class Certified(Recorded):
    """A supervisor made the result official, counted up to the frontier.

    `frontier` names each device's last number that counts, and the hash of that event.
    """

    type = "certify"
    by: Annotated[str, Field(max_length=64)]
    state: Annotated[str, Field(max_length=64)]
    frontier: Annotated[
        tuple[tuple[str, Annotated[int, Field(ge=0)], str], ...], Field(max_length=64)
    ]
    reason: Annotated[str, Field(max_length=500)] = ""


class Reopened(Recorded):
    """A supervisor took the certification back, and why."""

    type = "reopen"
    by: Annotated[str, Field(max_length=64)]
    reason: Annotated[str, Field(min_length=1, max_length=500)]


class Unread(Recorded):
    """An entry of a newer version, which this program keeps and cannot read."""

    type = "unread"
    kind: str
    v: int
