"""Says what a kind of rule is: its parameters, its sentence, and what breaks it."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Annotated, Any, Final, Generic, Literal, TypeAlias, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict
from pydantic_core import PydanticCustomError

from wholeball.kernel.identity import GameId
from wholeball.planning.placed import Placed
from wholeball.planning.rule import Rule, Strength
from wholeball.rulebook.sentence import counted, listed

_TIME: Final = re.compile(r"([01]?[0-9]|2[0-3]):[0-5][0-9]")
_DAY: Final = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def _time_of(value: object) -> object:
    """Take a time as people write it; a number is none, and neither is one with seconds."""
    if isinstance(value, str) and _TIME.fullmatch(value):
        return time.fromisoformat(value.zfill(5))
    if isinstance(value, time) and value.second == 0 and value.tzinfo is None:
        return value
    cure = 'Write it as "18:05", on the 24-hour clock.'
    raise PydanticCustomError("type", 'a time such as "18:05"', {"cure": cure})


def _night_of(value: object) -> object:
    """Take a day as people write it: year, month, day."""
    if isinstance(value, str) and _DAY.fullmatch(value):
        try:
            return date.fromisoformat(value)
        except ValueError as error:
            cure = "There is no such day."
            raise PydanticCustomError("range", "a day there is", {"cure": cure}) from error
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    cure = 'Write it as "2027-01-18".'
    raise PydanticCustomError("type", 'a day such as "2027-01-18"', {"cure": cure})


_STAGES: Final = {
    "league": ("league", "in the league"),
    "play_off": ("play-off", "in the play-offs"),
}
"""What names the games of a stage in a sentence, and what is put to one that does not."""

Clock = Annotated[time, BeforeValidator(_time_of)]
"""A local time, to the minute."""
Night = Annotated[date, BeforeValidator(_night_of)]
"""A night by the day on which it begins."""


class Params(BaseModel):
    """The parameters of a kind; a record with any other, or of another type, is refused."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


_P = TypeVar("_P", bound=Params)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One thing that breaks a rule: whom it is about, by which games, how often, in words."""

    about: str
    games: tuple[GameId, ...]
    says: str
    times: int = 1


Concerned: TypeAlias = Literal["any", "several", "none"]
"""Whom a rule of a kind can name: any teams or everybody, two teams or more, or no teams."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind(Generic[_P]):
    """A kind of rule; `says` is its sentence, `breaks` finds all that breaks one in a plan.

    `teams` says whom a rule of the kind can name, and `stages` whether it can look at the games
    of the league or of the play-offs alone.
    """

    name: str
    params: type[_P]
    strengths: tuple[Strength, ...]
    says: Callable[[Rule, _P], str]
    breaks: Callable[[Rule, _P, Placed], Iterator[Found]]
    teams: Concerned = "any"
    stages: bool = True

    def read(self, rule: Rule) -> _P:
        """Return the parameters of a rule of this kind.

        Raises:
            ValidationError: they are not those of the kind.
        """
        return self.params.model_validate(dict(rule.params))

    def sentence(self, rule: Rule) -> str:
        """Return a rule of this kind in words.

        Raises:
            ValidationError: its parameters are not those of the kind.
        """
        says = self.says(rule, self.read(rule))
        word, where = _STAGES.get(rule.games, ("", ""))
        return says if word in says else f"{says.removesuffix('.')} {where}."


AnyKind = Kind[Any]


def who(rule: Rule, one: str, many: str) -> str:
    """Begin a sentence: "Every team plays", "Ash plays", "Ash and Birch each play"."""
    if not rule.teams:
        return f"Every team {one}"
    if len(rule.teams) == 1:
        return f"{rule.teams[0]} {one}"
    return f"{listed(rule.teams)} each {many}"


def games_of(rule: Rule, number: int) -> str:
    """Write a number of games of the stage that a rule looks at: "2 league games"."""
    stage = {"all": "", "league": "league ", "play_off": "play-off "}[rule.games]
    return counted(number, f"{stage}game")
