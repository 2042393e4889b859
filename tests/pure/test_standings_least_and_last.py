"""Tables where games count nowhere, ratings are too few, teams are out, or conduct decides."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from wholeball.kernel.identity import GameId, TeamId
from wholeball.reports.reasons import reason
from wholeball.rulebook.criteria import Conduct, ConductPoints, Criterion, LastResort
from wholeball.season.columns import column
from wholeball.season.count import Counting, ForfeitCounting
from wholeball.season.result import CardCounts, Result
from wholeball.season.standings import Regulation, standings
from wholeball.season.tally import OutsideFigures

A, B, C = (TeamId(name) for name in "ABC")


@pytest.mark.parametrize(
    ("least", "verdict", "above", "because"),
    [
        (2, "parts", Fraction(9, 2), None),
        (3, "absent", None, "too_few_ratings"),
    ],
)
def test_an_average_of_too_few_ratings_is_not_asked(
    least: int, verdict: str, above: Fraction | None, because: str | None
) -> None:
    rated = [
        _game(name=name, home_rating=Decimal(home), away_rating=Decimal(3))
        for name, home in (("g1", 4), ("g2", 5))
    ]
    rules = replace(_rules("ratings_average"), ratings_least=least)
    asked = standings(rated, rules, teams=[A, B]).neighbours[0].asked[0]
    assert (asked.verdict, asked.above, asked.reason) == (verdict, above, because)
    nobody = standings([_game()], rules, teams=[A, B]).absences
    assert [one.reason for one in nobody] == ["not_recorded"]


def test_teams_that_are_out_stand_last_whatever_they_have() -> None:
    games = [_won(A, B), _won(A, C), _won(B, C)]
    found = standings(games, _rules("points"), teams=[A, B, C], out=[A])
    assert [(row.place, row.team, row.points) for row in found.rows] == [
        (1, B, 3),
        (2, C, 0),
        (3, A, 6),
    ]
    assert [one.below_is_out for one in found.neighbours] == [False, True]
    assert reason(found.neighbours[1]) == (
        "Why is C above A?",
        "A is out of the league and stands last. This parts them.",
    )
    alone = standings(games, _rules("points"), teams=[A, B, C], out=[A, B, C])
    assert [row.place for row in alone.rows] == [1, 2, 3]


COSTS = ConductPoints(yellow=-1, second_yellow=-3, straight_red=-4, yellow_and_straight_red=-5)


@pytest.mark.parametrize(
    ("criteria", "given", "order"),
    [
        (("points",), {}, None),
        (("points",), {A: 2, B: 1}, "B A"),
        (("points", Conduct(conduct=COSTS)), {A: 2, B: 1}, "A B"),
    ],
)
def test_conduct_as_a_last_resort_reads_points_given(
    criteria: tuple[Criterion, ...], given: dict[TeamId, int], order: str | None
) -> None:
    game = _game(home_cards=CardCounts(), away_cards=CardCounts(yellow=1))
    rules = _rules(*criteria, last_resort="conduct")
    outside = OutsideFigures(discipline_points=given)
    found = standings([game], rules, teams=[A, B], outside=outside)
    assert (None if found.unresolved else " ".join(row.team for row in found.rows)) == order


def test_conduct_as_a_last_resort_costs_what_the_criterion_says_where_no_points_are_given() -> (
    None
):
    counted = _game(home_cards=CardCounts(), away_cards=CardCounts(yellow=2))
    rules = _rules("points", last_resort="conduct")
    facts = standings([counted], rules, teams=[A, B]).history.facts
    level = np.zeros(2, dtype=np.int64)
    without_costs = column("conduct", facts, level)
    assert [without_costs.figure(team) for team in (0, 1)] == [None, None]
    with_costs = column("conduct", replace(facts, costs=COSTS), level)
    assert [with_costs.figure(team) for team in (0, 1)] == [0, -2]
    points = OutsideFigures(discipline_points={A: 2, B: 1})
    given = column("conduct", replace(facts, costs=COSTS, outside=points), level)
    assert [given.figure(team) for team in (0, 1)] == [2, 1]


def test_a_double_forfeit_that_is_annulled_counts_nowhere() -> None:
    forfeit = ForfeitCounting(goals_for=3, points_loser=-2)
    counting = Counting(forfeit=forfeit, double="annulled")
    rules = replace(_rules("fewest_forfeits"), counting=counting)
    found = standings([_game(how="double_forfeit")], rules, teams=[A, B])
    assert [(row.played, row.lost, row.points) for row in found.rows] == [(0, 0, 0)] * 2
    asked = found.neighbours[0].asked[0]
    assert (asked.above, asked.below) == (0, 0)


def _rules(*criteria: Criterion, last_resort: LastResort = "lots") -> Regulation:
    return Regulation(criteria=criteria, last_resort=last_resort)


def _won(home: TeamId, away: TeamId) -> Result:
    return _game(name=f"{home}{away}", home=home, away=away, home_goals=1)


def _game(*, name: str = "g", **fields: Any) -> Result:
    given: dict[str, Any] = {"home": A, "away": B} | fields
    return Result(game=GameId(name), round=1, **given)
