"""Declares what a paper scorecard says, as it is typed in: one value a card.

Its keys are those of a file `cards/GAME.toml`; docs/reference/paper-scorecard.md says what each
means.
"""

import re
from datetime import date
from decimal import Decimal
from typing import Annotated, Final, Literal, NamedTuple, TypeAlias

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, PlainValidator
from pydantic_core import PydanticCustomError

from wholeball.game.happenings import Number, Shown, Signer, Words
from wholeball.game.state import Score
from wholeball.kernel.identity import Side

MOST_GOALS: Final = 99
"""Goals that one side may be given in one period."""
_SCORE = re.compile(r"(\d{1,2})\s*[-:\N{EN DASH}]\s*(\d{1,2})", re.ASCII)
_MARKS: Final = frozenset("ox-")
MOST_NAME: Final = 64
"""Letters of a name or a code that an entry holds."""
_GIVEN = re.compile(r"(.*?)\s*=\s*(\d{1,2})", re.ASCII)


class PaperPlayer(NamedTuple):
    """Who played: a shirt's number, a name or code, or a name and the number given at the gate."""

    number: int | None = None
    name: str = ""


def score_of(text: object) -> Score:
    """Return a score from text such as "2-1", home first.

    Raises:
        PydanticCustomError: it is none.
    """
    if isinstance(text, Score):
        return text
    found = _SCORE.fullmatch(text.strip()) if isinstance(text, str) else None
    if found is None:
        raise PydanticCustomError(
            "type", "a score is two numbers from 0 to 99 in quotes", {"cure": 'Write "2-1".'}
        )
    return Score(int(found[1]), int(found[2]))


def _marks(text: str) -> str:
    if not set(text) <= _MARKS:
        raise PydanticCustomError(
            "unknown_value",
            "each kick is o (scored), x (not scored) or - (nobody came to take it)",
            {"cure": 'Write one letter a kick, such as "ooxo".'},
        )
    return text


def player_of(given: object) -> PaperPlayer:
    """Return a player from 7, "Noor Zephirou" or "Noor Zephirou=9".

    Raises:
        PydanticCustomError: it is none.
    """
    if isinstance(given, PaperPlayer):
        return given
    if isinstance(given, int) and not isinstance(given, bool):
        if 0 <= given <= 99:
            return PaperPlayer(given)
        raise PydanticCustomError(
            "range", "a shirt's number is 0 to 99", {"cure": "Give 0 to 99, or the name."}
        )
    text = given.strip() if isinstance(given, str) else ""
    worn = _GIVEN.fullmatch(text)
    name, number = (worn[1], int(worn[2])) if worn else (text, None)
    if not name or name.isdecimal() or len(name) > MOST_NAME:
        raise PydanticCustomError(
            "type",
            "a player is a number, or a name in quotes",
            {
                "cure": f'Write 7, or "Name" of at most {MOST_NAME} letters, or "Name=9" for a '
                "shirt given at the gate."
            },
        )
    return PaperPlayer(number, name)


def _rating(given: object) -> Decimal:
    if isinstance(given, int | Decimal) and not isinstance(given, bool):
        return Decimal(given)
    if given == "":
        raise PydanticCustomError(
            "range",
            "an empty rating is no rating",
            {"cure": "Give a value of the rulebook's scale, or take the rating out."},
        )
    raise PydanticCustomError(
        "type", "a rating is a number", {"cure": "Write it without quotes, such as 4."}
    )


GivenScore: TypeAlias = Annotated[Score, PlainValidator(score_of)]
Marks: TypeAlias = Annotated[str, Field(max_length=60), AfterValidator(_marks)]
Minute: TypeAlias = Annotated[int, Field(ge=1, le=99)]
Period: TypeAlias = Annotated[int, Field(ge=1, le=8)]
Players: TypeAlias = Annotated[
    tuple[Annotated[PaperPlayer, PlainValidator(player_of)], ...], Field(max_length=60)
]
Shirts: TypeAlias = Annotated[
    tuple[Annotated[int, Field(ge=0, le=99)], ...], Field(max_length=60)
]


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class PaperGoal(_Part):
    """A goal whose scorer or minute the card has; `side` gets it."""

    side: Side
    period: Period
    minute: Minute | None = None
    number: Number = None
    own: bool = False
    penalty: bool = False


class PaperYellow(_Part):
    """Yellow; without a period and minute it stands at the end of what was played.

    `before_stop` is for one without them that was shown before a game was stopped and resumed.
    """

    side: Side
    number: Number = None
    to: Shown = "player"
    reason: Annotated[str, Field(max_length=200)] = ""
    period: Period | None = None
    minute: Minute | None = None
    before_stop: bool = False


class PaperRed(PaperYellow):
    """Red; one for another yellow follows by itself and may be left out."""

    second_yellow: bool = False


class PaperKicks(_Part):
    """Kicks from the mark, a letter a kick, and who took them where the card has that."""

    first: Side
    home: Marks
    away: Marks
    home_numbers: Shirts = ()
    away_numbers: Shirts = ()


class PaperForfeit(_Part):
    """A forfeit of one side or both."""

    by: Side | Literal["both"]
    why: Literal["not_ready", "too_few", "left", "barred_player", "conduct", "other"]


class PaperDefault(_Part):
    """A side that said it would not come."""

    by: Side
    in_time: bool


class PaperBrokenOff(_Part):
    """A game that was stopped for the day, and the side to blame for it, or both."""

    why: Literal["weather", "lights", "field", "injury", "disorder", "numbers", "other"]
    to_blame: Side | Literal["both"] | None = None


class PaperResumed(_Part):
    """A game that was stopped and went on another night, on the day `on`.

    It stopped in a period whose clock still had `minutes_left`.
    """

    why: Literal["weather", "lights", "field", "injury", "disorder", "numbers", "other"]
    period: Period
    minutes_left: Annotated[int, Field(ge=0, le=60)]
    on: date | None = None


class PaperProtest(_Part):
    """A protest; without a period and minute nobody wrote down when it was made."""

    side: Side
    about: Literal["rule_misapplied", "eligibility", "judgement"]
    by: Literal["captain", "player", "other"] = "captain"
    period: Period | None = None
    minute: Minute | None = None


class PaperRating(_Part):
    """A sportsmanship rating that a side received."""

    side: Side
    value: Annotated[Decimal, PlainValidator(_rating)]
    by: Literal["official", "second_official", "opponent"] = "official"
    reason: Annotated[str, Field(max_length=500)] = ""


class PaperRefusal(_Part):
    """Somebody who refused to sign, and why."""

    by: Signer
    reason: Annotated[str, Field(max_length=500)] = ""


class PaperCard(_Part):
    """A whole paper scorecard.

    `home_players` and `away_players` are those who were checked in, where the card has them.
    `periods` and `overtime` have the goals of each period alone. `minutes_left` is what the
    clock of the last period still had when the game ended before its time. `ended` is None
    where nobody wrote down whether the game went to its time or the mercy rule ended it.
    """

    schema_version: int = Field(default=1, alias="schema")
    periods: tuple[GivenScore, ...] = Field(default=(), max_length=4)
    overtime: tuple[GivenScore, ...] = Field(default=(), max_length=4)
    ended: Literal["full_time", "mercy"] | None = None
    minutes_left: int | None = Field(default=None, ge=0, le=60)
    goals: tuple[PaperGoal, ...] = Field(default=(), max_length=200)
    yellow: tuple[PaperYellow, ...] = Field(default=(), max_length=100)
    red: tuple[PaperRed, ...] = Field(default=(), max_length=100)
    kicks: PaperKicks | None = None
    forfeit: PaperForfeit | None = None
    default: PaperDefault | None = None
    broken_off: PaperBrokenOff | None = None
    resumed: PaperResumed | None = None
    protests: tuple[PaperProtest, ...] = Field(default=(), max_length=20)
    ratings: tuple[PaperRating, ...] = Field(default=(), max_length=20)
    home_players: Players = ()
    away_players: Players = ()
    signed: tuple[Signer, ...] = Field(default=(), max_length=5)
    refused: tuple[PaperRefusal, ...] = Field(default=(), max_length=5)
    note: Words = ""

    @property
    def scores(self) -> tuple[Score, ...]:
        """The goals of each period that was played, overtime last."""
        return self.periods + self.overtime
