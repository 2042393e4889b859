"""Is the base of every record of a game, with the words and numbers that records share."""

from datetime import date
from typing import Annotated, ClassVar, Literal, TypeAlias

from pydantic import AfterValidator, BaseModel, ConfigDict, Field
from pydantic_core import PydanticCustomError


def _day(text: str) -> str:
    try:
        found = date.fromisoformat(text)
    except ValueError:
        found = None
    if found is None or found.isoformat() != text:
        raise PydanticCustomError(
            "type", "a day is written as 2026-09-20", {"cure": "Write year-month-day."}
        )
    return text


Number: TypeAlias = Annotated[int, Field(ge=0, le=99)] | None
"""A shirt's number, or None for a shirt without one or a player nobody could name."""
EventId: TypeAlias = Annotated[str, Field(min_length=1, max_length=64)]
Day: TypeAlias = Annotated[str, AfterValidator(_day)]
"""A day as text, such as 2026-09-20."""
Words: TypeAlias = Annotated[str, Field(max_length=2000)]
Pointer: TypeAlias = Annotated[str, Field(min_length=1, max_length=64)]
"""Where the private record of an injury or an incident is; the log holds none of its words."""
Group: TypeAlias = Literal["woman", "man"]
"""What a player privately says to count as, where a game is mixed."""
Shown: TypeAlias = Literal["player", "substitute", "team_official"]
Signer: TypeAlias = Literal[
    "home_captain", "away_captain", "official", "scorekeeper", "supervisor"
]
Stop: TypeAlias = Literal[
    "goal",
    "caution",
    "sending_off",
    "penalty",
    "injury",
    "substitution",
    "ball_out",
    "hold",
    "other",
]
Place: TypeAlias = Literal["in_or_by_penalty_area", "attacking_half", "anywhere"]


class Recorded(BaseModel):
    """What every record is: frozen, strict, without unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    type: ClassVar[str]
    version: ClassVar[int] = 1
