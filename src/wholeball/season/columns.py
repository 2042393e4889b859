"""Writes each criterion out as one column: a figure for every team, and how it compares."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

import numpy as np

from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import (
    CappedDifference,
    Conduct,
    ConductPoints,
    Criterion,
    DisciplinePoints,
    LastResort,
    LevelFigure,
)
from wholeball.season.count import Flags, Games, Whole
from wholeball.season.mini_tables import MiniTables, all_met, mini_figure
from wholeball.season.result import CardCounts, Result
from wholeball.season.tally import Facts, added, both_sides

Step: TypeAlias = Criterion | LastResort
Quantity: TypeAlias = int | Fraction | Decimal | Literal["infinite"]
Reason: TypeAlias = Literal[
    "not_all_met", "not_recorded", "no_goals_at_all", "no_play_off", "not_drawn"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One figure of every team.

    `worth` is what is compared, more is better, shape (teams,); where not `known` it means
    nothing, for `reason`. `figures` are what a page shows, where that is not the worth itself
    (or, for `fewest`, its opposite). `draws` name the draw a team's lot is from.
    """

    worth: Whole
    known: Flags
    reason: Reason = "not_recorded"
    fewest: bool = False
    figures: Sequence[Quantity | None] | None = None
    draws: dict[int, str] = field(default_factory=dict)

    def figure(self, team: int) -> Quantity | None:
        """Return the team's figure as a page shows it; None where it is not known."""
        if not self.known[team]:
            return None
        if self.figures is not None:
            return self.figures[team]
        return int(-self.worth[team] if self.fewest else self.worth[team])


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
    match step:
        case CappedDifference(capped_difference=most):
            return _of_games(facts, lambda games: _capped(games, most, len(facts.teams)))
        case Conduct(conduct=costs):
            return _conduct(facts, costs)
        case DisciplinePoints() | "conduct":
            return _outside(facts, facts.outside.discipline_points.get, fewest=True)
        case "play_off_match":
            return _play_offs(facts, level)
        case "lots" | "coordinator":
            return _lots(facts, level)
        case str() if step in _FIGURES:
            return _FIGURES[step](facts)
        case _:
            raise ValueError(f"{step!r} has no column")


def level_column(figure: LevelFigure, tables: MiniTables | None, teams: int) -> Column:
    """Return the column of one figure of the mini-tables; None tables know nothing.

    Only points a game are known where the level teams did not all meet: there each must have
    played inside its set.
    """
    if tables is None:
        nothing = np.zeros(teams, dtype=np.int64)
        return Column(worth=nothing, known=nothing > 0, reason="not_all_met")
    values = mini_figure(figure, tables)
    if isinstance(values, list):
        return _ranked(values, reason="not_all_met")
    return Column(worth=values, known=tables.met, reason="not_all_met")


def _all_known(worth: Whole, *, fewest: bool = False) -> Column:
    known = np.ones(len(worth), dtype=np.bool_)
    return Column(worth=-worth if fewest else worth, known=known, fewest=fewest)


def _unknown(facts: Facts, reason: Reason) -> Column:
    n = len(facts.teams)
    nothing = np.zeros(n, dtype=np.int64)
    return Column(worth=nothing, known=np.zeros(n, dtype=np.bool_), reason=reason)


def _of_games(facts: Facts, figure: Callable[[Games], Whole]) -> Column:
    if facts.games is None:
        return _unknown(facts, "not_recorded")
    return _all_known(figure(facts.games))


def _ranked(
    figures: Sequence[Quantity | None],
    *,
    highest: bool = True,
    reason: Reason = "not_recorded",
) -> Column:
    """Return a column whose worth is each exact figure's rank among all of them."""
    exact = [None if one is None else _sortable(one) for one in figures]
    ladder = sorted({one for one in exact if one is not None}, reverse=not highest)
    rank = {one: position for position, one in enumerate(ladder)}
    return Column(
        worth=np.array([0 if one is None else rank[one] for one in exact], dtype=np.int64),
        known=np.array([one is not None for one in exact], dtype=np.bool_),
        reason=reason,
        figures=figures,
    )


def _sortable(figure: Quantity) -> tuple[bool, Fraction]:
    return (True, Fraction(0)) if figure == "infinite" else (False, Fraction(figure))


def _points_per_game(facts: Facts) -> Column:
    """Exact; a team that has not played has its points (common practice, no source)."""
    pairs = zip(facts.tally.points.tolist(), facts.tally.played.tolist(), strict=True)
    return _ranked([Fraction(points, max(played, 1)) for points, played in pairs])


def _goal_average(facts: Facts) -> Column:
    """Goals for divided by goals against, exact.

    With none against it is infinite, so two teams with none against are level on it (Football
    League practice to 1976, from memory); with none at all there is no quotient.
    """
    both = zip(facts.tally.goals_for.tolist(), facts.tally.goals_against.tolist(), strict=True)
    return _ranked([_quotient(*pair) for pair in both], reason="no_goals_at_all")


def _quotient(goals_for: int, goals_against: int) -> Quantity | None:
    if goals_against:
        return Fraction(goals_for, goals_against)
    return "infinite" if goals_for else None


def _difference(facts: Facts) -> Column:
    return _all_known(facts.tally.goals_for - facts.tally.goals_against)


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


def _forfeits(facts: Facts) -> Column:
    """Count forfeits, not defaults; a double forfeit is one of each side."""
    if facts.games is None:
        return _unknown(facts, "not_recorded")
    counts = dict.fromkeys(facts.teams, 0)
    for result in facts.results:
        for team in _at_fault(result):
            counts[team] += 1
    return _all_known(np.array(list(counts.values()), dtype=np.int64), fewest=True)


def _at_fault(result: Result) -> tuple[TeamId, ...]:
    if result.how == "double_forfeit":
        return (result.home, result.away)
    if result.how == "forfeit":
        return (result.home if result.by == "home" else result.away,)
    return ()


def _ratings(facts: Facts) -> Column:
    """Average over the games in which the team was rated, exact."""
    given: dict[TeamId, list[Fraction]] = {team: [] for team in facts.teams}
    for result in facts.results:
        if result.how == "annulled":
            continue
        for team, rating in (
            (result.home, result.home_rating),
            (result.away, result.away_rating),
        ):
            if rating is not None:
                given[team].append(Fraction(rating))
    return _ranked([sum(one, Fraction()) / len(one) if one else None for one in given.values()])


def _outside(
    facts: Facts, get: Callable[[TeamId], int | Decimal | None], *, fewest: bool
) -> Column:
    return _ranked([get(team) for team in facts.teams], highest=not fewest)


def _outside_ranking(facts: Facts) -> Column:
    if facts.outside.coefficients:
        return _outside(facts, facts.outside.coefficients.get, fewest=False)
    return _outside(facts, facts.outside.ranking.get, fewest=True)


def _conduct(facts: Facts, costs: ConductPoints) -> Column:
    """Count conduct; a team with one game whose cards were not recorded has no figure."""
    totals = _recorded_cards(facts)
    cost = (
        costs.yellow,
        costs.second_yellow,
        costs.straight_red,
        costs.yellow_and_straight_red,
    )
    figures: list[Quantity | None] = []
    for team in facts.teams:
        outside = facts.outside.cards.get(team)
        counts = outside.in_order if outside is not None else totals[team]
        figures.append(None if counts is None else _worth(counts, cost))
    return _ranked(figures)


def _worth(counts: tuple[int, ...], cost: tuple[int, ...]) -> int:
    return sum(each * price for each, price in zip(counts, cost, strict=True))


def _recorded_cards(facts: Facts) -> dict[TeamId, tuple[int, ...] | None]:
    start = None if facts.games is None else (0, 0, 0, 0)
    totals: dict[TeamId, tuple[int, ...] | None] = dict.fromkeys(facts.teams, start)
    for result in facts.results:
        if result.how == "annulled":
            continue
        for team, cards in ((result.home, result.home_cards), (result.away, result.away_cards)):
            totals[team] = _with_cards(totals[team], cards, result)
    return totals


def _with_cards(
    total: tuple[int, ...] | None, cards: CardCounts | None, result: Result
) -> tuple[int, ...] | None:
    if cards is not None and total is not None:
        return tuple(a + b for a, b in zip(total, cards.in_order, strict=True))
    on_the_field = result.how == "played" or result.played_score is not None
    return None if on_the_field else total


def _play_offs(facts: Facts, level: Whole) -> Column:
    """Points from the play-off games among the level teams, who must all have met in them."""
    games, n = facts.play_offs, len(facts.teams)
    if games is None:
        return _unknown(facts, "no_play_off")
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
    "points": lambda facts: _all_known(facts.tally.points),
    "points_per_game": _points_per_game,
    "wins": lambda facts: _all_known(facts.tally.won),
    "difference": _difference,
    "goals": lambda facts: _all_known(facts.tally.goals_for),
    "goal_average": _goal_average,
    "away_goals": lambda facts: _away(facts, lambda games: games.away_goals),
    "away_wins": lambda facts: _away(facts, lambda games: games.away_won),
    "opponents_points": lambda facts: _opponents(facts, facts.tally.points),
    "opponents_difference": lambda facts: _opponents(
        facts, facts.tally.goals_for - facts.tally.goals_against
    ),
    "opponents_goals": lambda facts: _opponents(facts, facts.tally.goals_for),
    "ratings_average": _ratings,
    "fewest_forfeits": _forfeits,
    "outside_ranking": _outside_ranking,
}
