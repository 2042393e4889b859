"""Says how a table is ordered, criterion by criterion."""

from typing import Final, assert_never

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.criteria import (
    AmongLevel,
    CappedDifference,
    Conduct,
    ConductPoints,
    Criterion,
    DisciplinePoints,
    Figure,
    LastResort,
    LevelFigure,
)
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, say

_FIGURES: Final[dict[Figure, str]] = {
    "points": "points",
    "points_per_game": "points a game",
    "wins": "wins",
    "difference": "goal difference",
    "goals": "goals scored",
    "goal_average": "goals scored divided by goals against",
    "away_goals": "goals scored away",
    "away_wins": "wins away",
    "opponents_points": "points of the opponents",
    "opponents_difference": "goal difference of the opponents",
    "opponents_goals": "goals scored by the opponents in all their games",
    "ratings_average": "average sportsmanship rating",
    "fewest_forfeits": "fewest forfeits",
    "outside_ranking": "a ranking from outside the league",
    "play_off_match": "a play-off game between them",
}
_LEVEL_FIGURES: Final[dict[LevelFigure, str]] = {
    "h2h_points": "points",
    "h2h_points_per_game": "points a game",
    "h2h_wins": "wins",
    "h2h_difference": "goal difference",
    "h2h_goals": "goals scored",
    "h2h_away_goals": "goals scored away",
}
_RESORTS: Final[dict[LastResort, str]] = {
    "lots": "Teams still level are parted by {resort}.",
    "play_off_match": "Teams still level are parted by {resort}.",
    "outside_ranking": "Teams still level are parted by {resort}.",
    "conduct": "Teams still level are parted by {resort}.",
    "coordinator": "Teams still level are parted by {resort}.",
    "shared": "Teams still level {resort}.",
}
_RESORT_WORDS: Final[dict[LastResort, str]] = {
    "lots": "lots",
    "play_off_match": "a play-off game",
    "outside_ranking": "a ranking from outside the league",
    "conduct": "conduct over the season",
    "coordinator": "a decision of the coordinator",
    "shared": "share the place",
}


def _standings(book: Rulebook) -> tuple[Sentence, ...]:
    points, criteria = book.standings.points, book.standings.criteria
    order = "; ".join(f"{at}. {_criterion(one)}" for at, one in enumerate(criteria, start=1))
    resort = book.standings.last_resort
    return (
        say(
            "A win brings {win}, a draw {draw}, a loss {loss}, and a forfeit {forfeit} to the "
            "side that forfeits.",
            win=counted(points.win, "point"),
            draw=points.draw,
            loss=points.loss,
            forfeit=points.forfeit_loss,
        ),
        say("Teams are ordered by {order}.", order=order),
        say(_RESORTS[resort], resort=_RESORT_WORDS[resort]),
    )


def _criterion(criterion: Criterion) -> str:
    match criterion:
        case AmongLevel(among_level=figures, again=again):
            return _mini_table(figures, is_made_again=again)
        case CappedDifference(capped_difference=most):
            return f"goal difference, at most {counted(most, 'goal')} a game"
        case Conduct(conduct=costs):
            return _conduct(costs)
        case DisciplinePoints():
            return "fewest discipline points"
        case str():
            return _FIGURES[criterion]
        case _:
            assert_never(criterion)


def _mini_table(figures: tuple[LevelFigure, ...], *, is_made_again: bool) -> str:
    names = ", ".join(_LEVEL_FIGURES[figure] for figure in figures)
    again = ", made again for those still level" if is_made_again else ""
    return f"in games among the level teams: {names}{again}"


def _conduct(costs: ConductPoints) -> str:
    return (
        f"conduct points, where a player's yellow costs {-costs.yellow}, "
        f"two yellows {-costs.second_yellow}, a straight red {-costs.straight_red} and "
        f"a yellow with a straight red {-costs.yellow_and_straight_red}"
    )


WORDS: Final[Dictionary] = {"standings": Words(title="Standings", says=_standings)}
