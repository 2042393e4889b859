"""Is the base of everything a rulebook states: values, and the articles that carry them."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Any, ClassVar, Literal, TypeAlias

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    Field,
    PlainSerializer,
    PlainValidator,
    Tag,
)
from pydantic.config import JsonDict
from pydantic_core import PydanticCustomError, PydanticKnownError

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.length import Length, length

Kind: TypeAlias = Literal["law", "permitted", "local", "administrative"]
ABOUT = ("ref", "kind", "why", "source", "note", "confirm")


class Value(BaseModel):
    """A record inside an article: frozen, strict, and without unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Idle:
    """Keys and parts of a table that mean nothing while others of it have certain values."""

    keys: tuple[str, ...]
    where: Mapping[str, tuple[object, ...]]

    def holds_in(self, table: BaseModel) -> bool:
        """Tell whether every one of the other keys has one of its values."""
        return all(
            any(_is_one(getattr(table, name), value) for value in allowed)
            for name, allowed in self.where.items()
        )


def idle(*keys: str, **where: tuple[object, ...]) -> Idle:
    """Say which keys are idle where all of the others have one of their values."""
    return Idle(keys=keys, where=where)


def _is_one(value: object, wanted: object) -> bool:
    if isinstance(value, Length) and isinstance(wanted, Length):
        return value.measured("metric").tenths == wanted.measured("metric").tenths
    return value == wanted


def key(
    says: str,
    *,
    least: int | Decimal | None = None,
    most: int | Decimal | None = None,
    unit: str | None = None,
) -> Any:
    """Describe a key of one number or word: what it says, its bounds, and its unit.

    The unit is shown with the value; where the key's name ends in a unit it need not be given.
    """
    extra: JsonDict | None = {"unit": unit} if unit else None
    if least is None and most is None:
        return Field(description=says, json_schema_extra=extra)
    return Field(description=says, ge=least, le=most, json_schema_extra=extra)


def items(says: str, *, least: int = 0, most: int = 40) -> Any:
    """Describe a key that holds a list of at least and at most so many items."""
    return Field(description=says, min_length=least, max_length=most)


def _text(says: str, *, most: int) -> Any:
    return Field(default="", description=says, max_length=most)


class Article(Value):
    """One rule: its values, the reference people cite, and the reason for it.

    `own_kind` is what a house's change of this article is where the rulebook does not say: a
    modification that the Laws permit, a deviation from them, or a matter that they leave to
    the competition. `idle_keys` are those of the table that others of it make idle.
    """

    own_kind: ClassVar[Kind] = "local"
    idle_keys: ClassVar[tuple[Idle, ...]] = ()

    ref: str = _text("How people cite the article, such as H 4.2.", most=40)
    kind: Kind = Field(
        default="law",
        description="law; permitted (a modification the Laws allow), local (a deviation) or "
        "administrative (the Laws leave it to the competition).",
    )
    why: str = _text("Why the house wants it so.", most=400)
    source: str = _text("Where the values come from.", most=400)
    note: str = _text("What to bear in mind.", most=800)
    confirm: bool = Field(
        default=False,
        description="true where an unlikely value is meant; takes the doubt away.",
    )


def _tag(value: object) -> str:
    return "word" if isinstance(value, str) else "number"


def _one_form(value: object) -> object:
    """Give equal numbers one form, so that 5, 5.0 and 5.00 give one digest."""
    if isinstance(value, int) and not isinstance(value, bool):
        return Decimal(value)
    if isinstance(value, Decimal) and value.is_finite():
        return Decimal(f"{value.normalize():f}")
    return value


Number: TypeAlias = Annotated[Decimal, BeforeValidator(_one_form)]


def _switch(value: object) -> object:
    """Refuse a number where true or false is meant: to Python 1 is True, to a reader it is not."""
    if not isinstance(value, bool):
        raise PydanticKnownError("bool_type")
    return value


Always: TypeAlias = Annotated[Literal[True], BeforeValidator(_switch)]
"""What no house may switch off."""
Never: TypeAlias = Annotated[Literal[False], BeforeValidator(_switch)]
"""What no house may switch on."""
NoLimit: TypeAlias = Literal["no_limit"]
Most: TypeAlias = Annotated[
    Annotated[int, Field(ge=0, le=999), Tag("number")] | Annotated[NoLimit, Tag("word")],
    Discriminator(_tag),
]
"""A whole number from 0, or "no_limit"."""

After: TypeAlias = Annotated[
    Annotated[int, Field(ge=1, le=999), Tag("number")] | Annotated[NoLimit, Tag("word")],
    Discriminator(_tag),
]
"""After how many: a whole number from 1, or "no_limit" for never."""


def _length(value: object) -> Length:
    if isinstance(value, Length):
        return value
    if not isinstance(value, str):
        raise PydanticCustomError(
            "type", "a length is text", {"cure": 'Write it with its unit, such as "10 yd".'}
        )
    try:
        return length(value)
    except WholeballError as error:
        raise PydanticCustomError("type", "it is no length", {"cure": error.fix}) from error


Distance: TypeAlias = Annotated[Length, PlainValidator(_length), PlainSerializer(str)]
"""A length with its unit; "0 m" where there is none."""
