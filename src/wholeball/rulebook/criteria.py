"""Names the figures that can part two teams in the standings, and how they are compared."""

from typing import Annotated, Literal, TypeAlias

from pydantic import AfterValidator, Discriminator, Field, Tag
from pydantic_core import PydanticCustomError

from wholeball.rulebook.value import Value, key

Figure: TypeAlias = Literal[
    "points",
    "points_per_game",
    "wins",
    "difference",
    "goals",
    "goal_average",
    "away_goals",
    "away_wins",
    "opponents_points",
    "opponents_difference",
    "opponents_goals",
    "ratings_average",
    "fewest_forfeits",
    "outside_ranking",
    "play_off_match",
]
"""What one figure a team compares; more is better, save fewest_forfeits and the ranking."""

LevelFigure: TypeAlias = Literal[
    "h2h_points",
    "h2h_points_per_game",
    "h2h_wins",
    "h2h_difference",
    "h2h_goals",
    "h2h_away_goals",
]
"""A figure of the games that the level teams played among themselves."""

LastResort: TypeAlias = Literal[
    "lots", "play_off_match", "outside_ranking", "conduct", "coordinator", "shared"
]
"""What decides where every criterion leaves teams level."""


class AmongLevel(Value):
    """One mini-table of the games among the level teams, its figures compared in order.

    With `again`, teams it parts are done and those still level get a new mini-table among
    themselves only, until nothing moves; without, it is made once.
    """

    among_level: tuple[LevelFigure, ...] = Field(
        description="The figures of the mini-table, in order.", min_length=1, max_length=6
    )
    again: bool = Field(default=False, description="Make a new one for those still level.")


class CappedDifference(Value):
    """The goal difference with each game's share cut at a margin."""

    capped_difference: int = key(
        "The most goals of difference a game counts.", least=1, most=50, unit="goals"
    )


class ConductPoints(Value):
    """What each player's yellow and red cards in one game cost; usually below nought."""

    yellow: int = key("One yellow.", least=-99, most=0)
    second_yellow: int = key("Two yellows, hence a red.", least=-99, most=0)
    straight_red: int = key("A red at once.", least=-99, most=0)
    yellow_and_straight_red: int = key("A yellow, then a red at once.", least=-99, most=0)


class Conduct(Value):
    """Conduct points counted from yellow and red; the highest is best."""

    conduct: ConductPoints = Field(description="What yellow and red cost.")


class DisciplinePoints(Value):
    """Totals of discipline points kept outside; the fewest is best."""

    discipline_points: Literal["fewest"] = Field(description="The fewest is best.")


def _tag(value: object) -> str | None:
    if isinstance(value, str):
        return "figure"
    if isinstance(value, dict):
        return next((tag for tag in _RECORDS if tag in value), None)
    return next((tag for tag, kind in _RECORDS.items() if isinstance(value, kind)), None)


_RECORDS: dict[str, type[Value]] = {
    "among_level": AmongLevel,
    "capped_difference": CappedDifference,
    "conduct": Conduct,
    "discipline_points": DisciplinePoints,
}

Criterion: TypeAlias = Annotated[
    Annotated[Figure, Tag("figure")]
    | Annotated[AmongLevel, Tag("among_level")]
    | Annotated[CappedDifference, Tag("capped_difference")]
    | Annotated[Conduct, Tag("conduct")]
    | Annotated[DisciplinePoints, Tag("discipline_points")],
    Discriminator(
        _tag,
        custom_error_type="unknown_value",
        custom_error_message="a criterion is a figure's name or a table with one of "
        "among_level, capped_difference, conduct, discipline_points",
    ),
]


def _each_once(criteria: tuple[Criterion, ...]) -> tuple[Criterion, ...]:
    twice = [item for index, item in enumerate(criteria) if item in criteria[:index]]
    if twice:
        raise PydanticCustomError(
            "duplicate", "{item} is listed twice", {"item": criterion_name(twice[0])}
        )
    return criteria


Criteria: TypeAlias = Annotated[
    tuple[Criterion, ...], Field(min_length=1, max_length=20), AfterValidator(_each_once)
]


def criterion_name(criterion: Criterion) -> str:
    """Return the name a criterion has in a rulebook: its figure or its table's key."""
    if isinstance(criterion, str):
        return criterion
    return next(tag for tag, kind in _RECORDS.items() if isinstance(criterion, kind))
