"""Names the questions that order teams, and writes their figures as people read them."""

from decimal import Decimal
from fractions import Fraction
from typing import Final

from wholeball.rulebook.criteria import (
    AmongLevel,
    CappedDifference,
    Conduct,
    DisciplinePoints,
    LevelFigure,
)
from wholeball.season.column import Quantity, Reason
from wholeball.season.ranking import Question

NAMES: Final[dict[str, str]] = {
    "points": "Points",
    "points_per_game": "Points a game",
    "wins": "Games won",
    "difference": "Goal difference",
    "goals": "Goals scored",
    "goal_average": "Goals for divided by goals against",
    "away_goals": "Goals scored away",
    "away_wins": "Games won away",
    "opponents_points": "Points of all opponents met",
    "opponents_difference": "Goal difference of all opponents met",
    "opponents_goals": "Goals of all opponents met",
    "ratings_average": "Average sportsmanship rating",
    "fewest_forfeits": "Forfeits, the fewest first",
    "outside_ranking": "Ranking from outside this table",
    "play_off_match": "Points in the play-off game between them",
    "lots": "Lots drawn",
    "conduct": "Conduct over the season",
    "coordinator": "The coordinator's order",
}
LEVEL_NAMES: Final[dict[LevelFigure, str]] = {
    "h2h_points": "Points",
    "h2h_points_per_game": "Points a game",
    "h2h_wins": "Games won",
    "h2h_difference": "Goal difference",
    "h2h_goals": "Goals scored",
    "h2h_away_goals": "Goals scored away",
}
REASONS: Final[dict[Reason, str]] = {
    "not_all_met": "not all the level teams have met",
    "not_recorded": "it is not recorded for all of them",
    "too_few_ratings": "a team has too few ratings for an average to count",
    "no_goals_at_all": "a team has no goals for or against",
    "no_play_off": "no play-off game between them has been played",
    "not_drawn": "nothing has been drawn or decided",
}
_SIGNED: Final = frozenset({"difference", "opponents_difference", "h2h_difference"})
_MOST_PLACES: Final = 3


def question_name(question: Question) -> str:
    """Return what a question asks, as a heading: "Goal difference"."""
    criterion = question.criterion
    match criterion:
        case AmongLevel():
            return "Games among them" if question.figure is None else _level(question.figure)
        case CappedDifference(capped_difference=most):
            return f"Goal difference, at most {most} a game"
        case Conduct():
            return "Conduct points from yellow and red"
        case DisciplinePoints():
            return "Discipline points, the fewest first"
        case str():
            return NAMES[criterion]


def figure_text(figure: Quantity | None, question: Question) -> str:
    """Return a figure as it is printed: "+3", "2.5", "7/3 (about 2.333)"."""
    match figure:
        case None:
            return "not known"
        case "infinite":
            return "no goals against"
        case Fraction():
            return fraction_text(figure)
        case Decimal():
            return f"{figure:f}"
        case int():
            return signed(figure) if _is_signed(question) else plain(figure)


def signed(number: int) -> str:
    """Return a number with its sign: "+4", "0", and a true minus below nought."""
    return f"+{number:,}" if number > 0 else plain(number)


def plain(number: int) -> str:
    """Return a number without a sign where it is not below nought: "4"."""
    return f"\N{MINUS SIGN}{-number:,}" if number < 0 else f"{number:,}"


def score(home: int, away: int) -> str:
    """Return a score, an en dash between the goals."""
    return f"{home}\N{EN DASH}{away}"


def _level(figure: LevelFigure) -> str:
    return f"{LEVEL_NAMES[figure]} in the games among them"


def _is_signed(question: Question) -> bool:
    if isinstance(question.criterion, CappedDifference):
        return True
    return (question.figure or question.criterion) in _SIGNED


def fraction_text(figure: Fraction) -> str:
    """Return an exact figure: "2.5", and "7/3 (about 2.333)" where it has no short end."""
    exact = Decimal(figure.numerator) / Decimal(figure.denominator)
    short = round(exact, _MOST_PLACES)
    if Fraction(short) == figure:
        text = f"{short:f}"
        return text.rstrip("0").rstrip(".") if "." in text else text
    return f"{figure.numerator}/{figure.denominator} (about {short:.{_MOST_PLACES}f})"
