"""Writes each criterion out as one column: a figure for every team, and how it compares."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import TypeAlias

import numpy as np

from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import (
    CappedDifference,
    Conduct,
    ConductPoints,
    Criterion,
    DisciplinePoints,
    LastResort,
)
from wholeball.season.column import Column, Quantity, all_known, ranked, unknown
from wholeball.season.count import Flags, Games, Whole
from wholeball.season.mini_tables import all_met
from wholeball.season.recorded import conduct, forfeits, ratings
from wholeball.season.tally import Facts, added, both_sides

Step: TypeAlias = Criterion | LastResort


def column(step: Step, facts: Facts, level: Whole) -> Column:
    """Return the column of a criterion other than a mini-table.

    Args:
        step: a criterion or a last resort.
        facts: what is known.
        level: number of the level set of each team, shape (teams,). Only play-offs and lots
            depend on it.

    Raises:
        ValueError: the step is a mini-table or has no figure.
    """
    put = _column(step, facts, level)
    return _a_game(put, facts, step) if facts.per_game and _adds_up(step) else put


def _adds_up(step: Step) -> bool:
    """Tell whether a figure grows with every game, so that more games are worth more of it."""
    return not isinstance(step, str) or step in _ADD_UP


def _a_game(put: Column, facts: Facts, step: Step) -> Column:
    played = facts.tally.played.tolist()
    figures = [put.figure(team) for team in range(len(played))]
    fewest = put.fewest or (
        isinstance(step, DisciplinePoints) and bool(facts.outside.discipline_points)
    )
    return ranked(
        [
            Fraction(one) / max(games, 1) if isinstance(one, int | Decimal) else None
            for one, games in zip(figures, played, strict=True)
        ],
        highest=not fewest,
        reason=put.reason,
    )


def _column(step: Step, facts: Facts, level: Whole) -> Column:
    match step:
        case CappedDifference(capped_difference=most):
            return _of_games(facts, lambda games: _capped(games, most, len(facts.teams)))
        case Conduct(conduct=costs):
            return conduct(facts, costs)
        case DisciplinePoints() | "conduct":
            return _discipline(facts, facts.costs if step == "conduct" else None)
        case "play_off_match":
            return _play_offs(facts, level)
        case "lots" | "coordinator":
            return _lots(facts, level)
        case str() if step in _FIGURES:
            return _FIGURES[step](facts)
        case _:
            raise ValueError(f"{step!r} has no column")


def _of_games(facts: Facts, figure: Callable[[Games], Whole]) -> Column:
    if facts.games is None:
        return unknown(len(facts.teams), "not_recorded")
    return all_known(figure(facts.games))


def _points_per_game(facts: Facts) -> Column:
    """Exact; a team that has not played has its points (common practice, no source)."""
    pairs = zip(facts.tally.points.tolist(), facts.tally.played.tolist(), strict=True)
    return ranked([Fraction(points, max(played, 1)) for points, played in pairs])


def _goal_average(facts: Facts) -> Column:
    """Goals for divided by goals against, exact.

    With none against it is infinite, so two teams with none against are level on it (Football
    League practice to 1976, from memory); with none at all there is no quotient.
    """
    both = zip(facts.tally.goals_for.tolist(), facts.tally.goals_against.tolist(), strict=True)
    return ranked([_quotient(*pair) for pair in both], reason="no_goals_at_all")


def _quotient(goals_for: int, goals_against: int) -> Quantity | None:
    if goals_against:
        return Fraction(goals_for, goals_against)
    return "infinite" if goals_for else None


def _difference(facts: Facts) -> Column:
    return all_known(facts.tally.goals_for - facts.tally.goals_against)


def _capped(games: Games, most: int, teams: int) -> Whole:
    margin = np.clip(games.home_goals - games.away_goals, -most, most)
    return both_sides(games, margin, -margin, teams)


def _away(facts: Facts, what: Callable[[Games], Whole | Flags]) -> Column:
    def total(games: Games) -> Whole:
        counts = what(games) * ~games.neutral
        return added(games.away, counts, len(facts.teams))

    return _of_games(facts, total)


def _opponents(facts: Facts, figure: Whole) -> Column:
    """Sum a figure of the table over the opponents met, once a game (UEFA 2024, Art. 18.01)."""

    def total(games: Games) -> Whole:
        return both_sides(games, figure[games.away], figure[games.home], len(facts.teams))

    return _of_games(facts, total)


def _outside(
    facts: Facts, get: Callable[[TeamId], int | Decimal | None], *, fewest: bool
) -> Column:
    return ranked([get(team) for team in facts.teams], highest=not fewest)


def _discipline(facts: Facts, costs: ConductPoints | None) -> Column:
    """Return the points given; where none are, what yellow and red cost, if that is known."""
    given = facts.outside.discipline_points
    if costs is not None and not given:
        return conduct(facts, costs)
    return _outside(facts, given.get, fewest=True)


def _outside_ranking(facts: Facts) -> Column:
    if facts.outside.coefficients:
        return _outside(facts, facts.outside.coefficients.get, fewest=False)
    return _outside(facts, facts.outside.ranking.get, fewest=True)


def _play_offs(facts: Facts, level: Whole) -> Column:
    """Points from the play-off games among the level teams, who must all have met in them."""
    games, n = facts.play_offs, len(facts.teams)
    if games is None:
        return unknown(len(facts.teams), "no_play_off")
    inner = level[games.home] == level[games.away]
    points = both_sides(games, games.home_points * inner, games.away_points * inner, n)
    met = all_met(games, level)
    return Column(worth=points, known=met, reason="no_play_off")


def _lots(facts: Facts, level: Whole) -> Column:
    """Position in the last draw that holds every team of the level set; 1 is best."""
    n = len(facts.teams)
    worth, known = np.zeros(n, dtype=np.int64), np.zeros(n, dtype=np.bool_)
    draws: dict[int, str] = {}
    for lots in facts.outside.lots:
        position = {team: place for place, team in enumerate(lots.order, start=1)}
        held = np.array([position.get(team, 0) for team in facts.teams], dtype=np.int64)
        whole = np.bincount(level[held == 0], minlength=level.max() + 1)[level] == 0
        worth, known = np.where(whole, -held, worth), known | whole
        draws |= dict.fromkeys(np.flatnonzero(whole).tolist(), lots.label)
    return Column(worth=worth, known=known, reason="not_drawn", fewest=True, draws=draws)


_FIGURES: dict[str, Callable[[Facts], Column]] = {
    "points": lambda facts: all_known(facts.tally.points),
    "points_per_game": _points_per_game,
    "wins": lambda facts: all_known(facts.tally.won),
    "difference": _difference,
    "goals": lambda facts: all_known(facts.tally.goals_for),
    "goal_average": _goal_average,
    "away_goals": lambda facts: _away(facts, lambda games: games.away_goals),
    "away_wins": lambda facts: _away(facts, lambda games: games.away_won),
    "opponents_points": lambda facts: _opponents(facts, facts.tally.points),
    "opponents_difference": lambda facts: _opponents(
        facts, facts.tally.goals_for - facts.tally.goals_against
    ),
    "opponents_goals": lambda facts: _opponents(facts, facts.tally.goals_for),
    "ratings_average": ratings,
    "fewest_forfeits": forfeits,
    "outside_ranking": _outside_ranking,
}
_ADD_UP = frozenset(_FIGURES) - {
    "points_per_game",
    "goal_average",
    "ratings_average",
    "outside_ranking",
}
