"""Declares what is written down beside the play: protests, ratings, records, signatures."""

from typing import Annotated, Literal

from pydantic import Field

from wholeball.game.happenings.record import Pointer, Recorded, Signer, Words
from wholeball.kernel.identity import Side


class Protested(Recorded):
    """A protest was made at this moment; `timed` is False where nobody wrote down when."""

    type = "protest"
    side: Side
    about: Literal["rule_misapplied", "eligibility", "judgement"]
    by: Literal["captain", "player", "other"]
    record: Pointer | None = None
    timed: bool = True


class IncidentNoted(Recorded):
    """Something happened that is told in a private record."""

    type = "incident"
    record: Pointer


class Noted(Recorded):
    """A remark about the game."""

    type = "note"
    text: Words


class Rated(Recorded):
    """A side was rated, in hundredths of the scale's unit."""

    type = "rating"
    side: Side
    by: Literal["official", "second_official", "opponent"]
    hundredths: Annotated[int, Field(ge=0, le=10_000)]
    reason: Annotated[str, Field(max_length=500)] = ""


class Signed(Recorded):
    """Somebody signed the scorecard; `state` is the digest of what they saw."""

    type = "sign"
    by: Signer
    state: Annotated[str, Field(max_length=64)] = ""


class SignRefused(Recorded):
    """Somebody refused to sign, and why."""

    type = "refuse_sign"
    by: Signer
    reason: Annotated[str, Field(max_length=500)]
