"""Says what a kind of rule is: its parameters, its sentence, and what breaks it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import time
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ConfigDict

from wholeball.kernel.identity import GameId
from wholeball.planning.placed import Placed
from wholeball.planning.rule import Rule, Strength


class Params(BaseModel):
    """The parameters of a kind; a record with any other is refused."""

    model_config = ConfigDict(frozen=True, extra="forbid")


_P = TypeVar("_P", bound=Params)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One thing that breaks a rule: whom it is about, by which games, how often, in words."""

    about: str
    games: tuple[GameId, ...]
    says: str
    times: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind(Generic[_P]):
    """A kind of rule; `says` is its sentence, `breaks` finds all that breaks one in a plan."""

    name: str
    params: type[_P]
    strengths: tuple[Strength, ...]
    says: Callable[[Rule, _P], str]
    breaks: Callable[[Rule, _P, Placed], Iterator[Found]]

    def read(self, rule: Rule) -> _P:
        """Return the parameters of a rule of this kind.

        Raises:
            ValidationError: they are not those of the kind.
        """
        return self.params.model_validate(dict(rule.params))


AnyKind = Kind[Any]


def whom(rule: Rule) -> str:
    """Name whom a rule concerns."""
    return ", ".join(rule.teams) if rule.teams else "Every team"


def clock(at: time) -> str:
    """Write a time of the day."""
    return f"{at:%H:%M}"


def plural(number: int, one: str) -> str:
    """Write a number with its noun: "1 game", "2 games"."""
    return f"{number} {one}" if number == 1 else f"{number} {one}s"
