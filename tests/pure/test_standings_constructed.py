"""Small constructed tables: one rule at a time, the last case without it and the first with."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from cases.score_lines import result_in
from wholeball.kernel.identity import GameId, TeamId
from wholeball.rulebook.criteria import (
    AmongLevel,
    CappedDifference,
    Criterion,
    LastResort,
    LevelFigure,
)
from wholeball.season.count import Counting, Deduction, ForfeitCounting, Points
from wholeball.season.leaving import without
from wholeball.season.result import CardCounts, Result
from wholeball.season.standings import (
    Given,
    Regulation,
    Standings,
    rank_figures,
    standings,
    standings_by_round,
)
from wholeball.season.tally import Lots, OutsideFigures

H2H: tuple[LevelFigure, ...] = ("h2h_points", "h2h_difference", "h2h_goals")
ONCE, AGAIN = AmongLevel(among_level=H2H), AmongLevel(among_level=H2H, again=True)
A, B, C, D = (TeamId(name) for name in "ABCD")
THREE_ORDERS = "A 1-0 B, A 1-2 C, A 2-0 D, B 2-1 C, B 3-0 D, C 3-1 D"
"""Constructed by search: A, B and C have six points each, and one another beaten."""


@pytest.mark.parametrize(
    ("criteria", "order"),
    [
        (("points", AGAIN, "difference", "goals"), "C A B D"),
        (("points", ONCE, "difference", "goals"), "C B A D"),
        (("points", "difference", "goals", ONCE), "B C A D"),
    ],
)
def test_one_set_of_results_gives_three_orders_under_three_regulations(
    criteria: tuple[Criterion, ...], order: str
) -> None:
    assert _order(_table(THREE_ORDERS, *criteria)) == order


def test_ten_points_taken_off_cost_the_team_its_place_and_leave_the_mini_table_alone() -> None:
    docked = [Deduction(team=A, points=10, why="constructed", ref="r 1")]
    found = _table("A 1-0 B, B 1-0 C, A 1-0 C", "points", deductions=docked)
    assert [(row.team, row.points, row.deducted) for row in found.rows] == [
        (B, 3, 0),
        (C, 0, 0),
        (A, -4, 10),
    ]
    level = [Deduction(team=A, points=3, why="constructed", ref="r 1")]
    found = _table("A 1-0 B, B 1-0 C, A 1-0 C", "points", ONCE, deductions=level)
    assert _order(found) == "A B C"
    assert (found.neighbours[0].asked[-1].above, found.neighbours[0].asked[-1].below) == (3, 0)


@pytest.mark.parametrize(
    ("counting", "winner", "loser"),
    [
        (ForfeitCounting(goals_for=5, goals_against=1), (3, 5, 1), (0, 1, 5)),
        (ForfeitCounting(goals_for=5, counts_in_difference=False), (3, 0, 0), (0, 0, 0)),
        (ForfeitCounting(goals_for=3, points_winner=2, points_loser=-1), (2, 3, 0), (-1, 0, 3)),
        (ForfeitCounting(goals_for=4, played_score_if_worse=True), (3, 4, 0), (0, 0, 4)),
        (ForfeitCounting(goals_for=3, played_score_if_worse=True), (3, 5, 1), (0, 1, 5)),
    ],
)
def test_a_forfeit_after_1_to_5_counts_as_the_rulebook_says(
    counting: ForfeitCounting, winner: tuple[int, ...], loser: tuple[int, ...]
) -> None:
    game = _game("forfeit", by="home", played_score=(1, 5))
    found = _ranked([game], "points", counting=Counting(forfeit=counting))
    assert [_brief(found, team) for team in (B, A)] == [winner, loser]
    default = _game("default", by="home", played_score=(1, 5))
    found = _ranked([default], "points", counting=Counting(default=counting))
    assert [_brief(found, team) for team in (B, A)] == [winner, loser]


def test_both_sides_lose_a_double_forfeit_without_goals_or_points() -> None:
    found = _ranked([_game("double_forfeit", home_goals=2, away_goals=2)], "points")
    assert [(row.played, row.drawn, row.lost, row.goals_for) for row in found.rows] == [
        (1, 0, 1, 0),
        (1, 0, 1, 0),
    ]
    assert [row.points for row in found.rows] == [0, 0]
    counting = Counting(forfeit=ForfeitCounting(goals_for=3, points_loser=-2))
    fined = _ranked([_game("double_forfeit")], "fewest_forfeits", counting=counting)
    assert [_brief(fined, team) for team in (A, B)] == [(-2, 0, 0), (-2, 0, 0)]
    asked = fined.neighbours[0].asked[0]
    assert (asked.above, asked.below) == (1, 1)


def test_an_annulled_game_is_left_out_and_an_awarded_one_counts_as_awarded() -> None:
    annulled = _ranked([_game("annulled", home_goals=3)], "points")
    assert [row.played for row in annulled.rows] == [0, 0]
    awarded = _ranked([_game("awarded", home_goals=3, played_score=(0, 1))], "points")
    assert _brief(awarded, A) == (3, 3, 0)


def test_a_team_that_leaves_is_annulled_kept_or_forfeits_the_rest() -> None:
    first, other, late = _results("B 2-0 C, A 1-0 B, C 3-1 A")
    results, given = [first, other, late], {late.game}
    left_out = replace(late, how="annulled", played_score=(3, 1))
    assert without(results, C, "annulled", late=given) == [
        replace(first, how="annulled", played_score=(2, 0)),
        other,
        left_out,
    ]
    assert without(results, C, "kept", late=given) == [first, other, left_out]
    forfeited = replace(late, how="forfeit", by="home", played_score=(3, 1))
    assert without(results, C, "rest_forfeited", late=given) == [first, other, forfeited]
    awarded = _game("awarded", played_score=(4, 4))
    assert without([awarded], A, "annulled", late=())[0].played_score == (4, 4)


def test_a_team_that_left_forfeits_its_away_games_too_but_none_that_was_annulled() -> None:
    (late,) = _results("A 1-0 C")
    forfeited = without([late], C, "rest_forfeited", late={late.game})
    assert forfeited == [replace(late, how="forfeit", by="away", played_score=(1, 0))]
    annulled = replace(late, how="annulled")
    assert without([annulled], C, "rest_forfeited", late={late.game}) == [annulled]


def test_three_points_for_a_win_put_two_wins_above_five_draws_and_two_points_below() -> None:
    wins = "A 1-0 C, A 1-0 C, A 0-1 C, A 0-1 C, A 0-1 C"
    results = f"{wins}, B 0-0 D, B 0-0 D, B 0-0 D, B 0-0 D, B 0-0 D"
    three, two = (_table(results, "points", points=Points(win=win)) for win in (3, 2))
    assert [_points(three, team) for team in (A, B)] == [6, 5]
    assert [_points(two, team) for team in (A, B)] == [4, 5]


def test_points_a_game_are_exact_and_those_of_no_game_are_nought() -> None:
    found = _table("A 1-0 B, A 0-1 B, A 1-0 B, C 0-0 D", "points_per_game", "goals")
    figures = {one.above: one.asked[0].above for one in found.neighbours}
    assert figures == {A: Fraction(2), B: Fraction(1), C: Fraction(1)}
    idle = standings([], _regulation("points_per_game"), teams=[A, B])
    assert idle.neighbours[0].asked[0].above == Fraction(0)


def test_goal_average_is_exact_infinite_without_goals_against_and_absent_without_any() -> None:
    found = _table("A 3-0 B, C 2-0 D, A 0-0 C", "goal_average")
    assert found.neighbours[0].asked[0].above == "infinite"
    assert found.unresolved == ((A, C), (B, D))
    exact = _table("A 3-2 B", "goal_average")
    assert exact.neighbours[0].asked[0].above == Fraction(3, 2)
    none = _table("A 0-0 B", "goal_average")
    assert [(one.reason, one.teams) for one in none.absences] == [("no_goals_at_all", (A, B))]


def test_capped_difference_cuts_each_game_at_the_margin() -> None:
    results = "A 9-0 D, B 3-0 D, B 1-0 C, A 0-0 C"
    assert _order(_table(results, "difference")).startswith("A B")
    assert _order(_table(results, CappedDifference(capped_difference=3))).startswith("B A")


def test_a_mini_table_of_teams_that_did_not_all_meet_is_passed_over_and_said_so() -> None:
    found = _table("A 2-0 D, B 3-0 D, A 1-1 C, B 1-1 C", "points", ONCE, "difference")
    separation = next(one for one in found.neighbours if {one.above, one.below} == {A, B})
    assert (separation.above, separation.by and separation.by.criterion) == (B, "difference")
    absent = [asked for asked in separation.asked if asked.verdict == "absent"]
    assert {asked.reason for asked in absent} == {"not_all_met"}
    assert [one.teams for one in found.absences] == [(A, B)] * 3


def test_points_a_game_among_level_teams_are_asked_where_not_all_met() -> None:
    per_game = AmongLevel(among_level=("h2h_points_per_game", "h2h_points"))
    found = _table("A 1-0 B, B 1-0 A, B 1-0 C, C 2-0 D, D 1-0 A, C 1-0 B", per_game)
    assert found.neighbours[0].asked[0].verdict == "parts"
    idle = standings([], _regulation(per_game), teams=[A, B])
    assert {one.reason for one in idle.absences} == {"not_all_met"}


def test_neutral_ground_has_no_away_goals_and_no_away_win() -> None:
    game = _game("played", away_goals=2, neutral=True)
    for criterion in ("away_goals", "away_wins"):
        found = _ranked([game], criterion)
        assert found.neighbours[0].asked[0].above == 0
        assert found.unresolved == ((A, B),)


def test_ratings_forfeits_and_conduct_are_read_from_results() -> None:
    rated = _game("played", home_rating=Decimal("3.5"), away_rating=Decimal("3.6"))
    found = _ranked([rated], "ratings_average")
    assert (found.rows[0].team, found.neighbours[0].asked[0].above) == (B, Fraction(18, 5))
    forfeits = _ranked([_game("forfeit", by="home")], "fewest_forfeits")
    asked = forfeits.neighbours[0].asked[0]
    assert (forfeits.rows[0].team, asked.above, asked.below) == (B, 0, 1)
    default = _ranked([_game("default", by="home")], "fewest_forfeits")
    assert default.unresolved == ((A, B),)


def test_an_outside_ranking_may_be_a_position_or_a_coefficient_but_not_both() -> None:
    ranking = OutsideFigures(ranking={A: 9, B: 2})
    coefficients = OutsideFigures(coefficients={A: Decimal("9.5"), B: Decimal("2.25")})
    assert _order(_table("A 0-0 B", "outside_ranking", outside=ranking)) == "B A"
    assert _order(_table("A 0-0 B", "outside_ranking", outside=coefficients)) == "A B"
    with pytest.raises(ValueError, match="not both"):
        OutsideFigures(ranking={A: 1}, coefficients={A: Decimal(1)})


def test_last_resorts_that_are_figures_decide_and_are_marked() -> None:
    play_off = _game("played", home_goals=0, away_goals=1)
    cases: dict[LastResort, OutsideFigures] = {
        "play_off_match": OutsideFigures(play_offs=[play_off]),
        "outside_ranking": OutsideFigures(ranking={A: 2, B: 1}),
        "conduct": OutsideFigures(discipline_points={A: 2, B: 1}),
        "lots": OutsideFigures(lots=[Lots(label="d 1", order=(B, A))]),
        "coordinator": OutsideFigures(lots=[Lots(label="ruling 4", order=(B, A))]),
    }
    for resort, outside in cases.items():
        found = _table("A 0-0 B", "points", outside=outside, last_resort=resort)
        separation = found.neighbours[0]
        assert (separation.above, separation.by and separation.by.resort) == (B, True), resort


def test_play_offs_of_other_tables_are_passed_over() -> None:
    other = next(_results("C 1-0 D"))
    outside = OutsideFigures(play_offs=[other])
    found = _table("A 0-0 B", "play_off_match", outside=outside)
    assert found.absences[0].reason == "no_play_off"


def test_the_last_draw_that_holds_all_the_level_teams_decides() -> None:
    lots = [
        Lots(label="first", order=(A, B)),
        Lots(label="again", order=(B, A)),
        Lots(label="part", order=(A, C)),
    ]
    found = _table("A 0-0 B", "points", outside=OutsideFigures(lots=lots))
    assert (_order(found), found.neighbours[0].asked[-1].draw) == ("B A", "again")


def test_lots_that_cannot_decide_are_refused() -> None:
    outside = OutsideFigures(lots=[Lots(label="d", order=(A, B))])
    with pytest.raises(ValueError, match="the last resort is shared"):
        _table("A 0-0 B", "points", outside=outside, last_resort="shared")


def test_by_round_lots_and_deductions_count_from_their_time() -> None:
    results = [_game("played"), _game("played", name="g2", round=3)]
    docked = [Deduction(team=A, points=1, why="constructed", ref="r 1", round=3)]
    rounds = standings_by_round(results, _regulation("points"), teams=[A, B], deductions=docked)
    assert [(one.round, _points(one.standings, A)) for one in rounds] == [(1, 1), (3, 1)]
    late = [replace(docked[0], round=4)]
    rounds = standings_by_round(results, _regulation("points"), teams=[A, B], deductions=late)
    assert [(one.round, _points(one.standings, A)) for one in rounds] == [(1, 1), (3, 1)]
    outside = OutsideFigures(lots=[Lots(label="d", order=(B, A))])
    rounds = standings_by_round(results, _regulation("points"), teams=[A, B], outside=outside)
    assert [one.standings.unresolved for one in rounds] == [((A, B),), ()]


def test_figures_alone_rank_and_what_only_games_tell_is_absent() -> None:
    criteria: tuple[Criterion, ...] = ("points", "difference", "goals", "away_goals", ONCE)
    level = {"played": 3, "won": 1, "drawn": 0, "lost": 2, "points": 3}
    rows = [
        Given(team=B, goals_for=2, goals_against=4, **level),
        Given(team=A, goals_for=2, goals_against=4, **level),
        Given(team=C, goals_for=6, goals_against=5, **level),
    ]
    found = rank_figures(rows, _regulation(*criteria, last_resort="shared"))
    assert [row.place for row in found.rows] == [1, 2, 2]
    reasons = [one.reason for one in found.absences]
    assert reasons == ["not_recorded", "not_all_met", "not_all_met", "not_all_met"]


def test_what_cannot_be_is_refused() -> None:
    game = _game("played")
    with pytest.raises(ValueError, match="game g is listed twice"):
        _ranked([game, game], "points")
    with pytest.raises(ValueError, match="plays but is not in the table"):
        standings([game], _regulation("points"), teams=[A])
    with pytest.raises(ValueError, match="a team is listed twice"):
        standings([], _regulation("points"), teams=[A, A])
    with pytest.raises(ValueError, match="deduction but is not"):
        _ranked([], "points", deductions=[Deduction(team=C, points=1, why="", ref="")])


@pytest.mark.parametrize(
    "wrong",
    [
        {"round": 0},
        {"away": A},
        {"home_goals": -1},
        {"played_score": (0, 10**6)},
        {"by": "home"},
    ],
)
def test_a_result_that_no_game_can_have_is_refused(wrong: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match="g:"):
        _game("played", **wrong)


def test_counts_and_scores_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="0 or more"):
        CardCounts(yellow=-1)
    with pytest.raises(ValueError, match="a forfeit is won"):
        ForfeitCounting(goals_for=1, goals_against=1)


def test_an_empty_league_has_an_empty_table() -> None:
    found = standings([], _regulation("points", AGAIN), teams=[])
    assert (found.rows, len(found.neighbours), found.unresolved, found.absences) == (
        (),
        0,
        (),
        (),
    )


def _regulation(
    *criteria: Criterion, last_resort: LastResort = "lots", counting: Counting | None = None
) -> Regulation:
    return Regulation(
        criteria=criteria,
        last_resort=last_resort,
        counting=counting or Counting(),
    )


def _table(
    results: str,
    *criteria: Criterion,
    points: Points | None = None,
    last_resort: LastResort = "lots",
    deductions: Sequence[Deduction] = (),
    outside: OutsideFigures | None = None,
) -> Standings:
    games = list(_results(results))
    return standings(
        games,
        _regulation(
            *criteria, last_resort=last_resort, counting=Counting(points=points or Points())
        ),
        teams={team for game in games for team in (game.home, game.away)},
        deductions=deductions,
        outside=outside or OutsideFigures(),
    )


def _ranked(
    games: Sequence[Result],
    *criteria: Criterion,
    counting: Counting | None = None,
    deductions: Sequence[Deduction] = (),
) -> Standings:
    rules = _regulation(*criteria, counting=counting)
    return standings(games, rules, teams=[A, B], deductions=deductions)


def _game(how: str, *, name: str = "g", **fields: Any) -> Result:
    given: dict[str, Any] = {
        "game": GameId(name),
        "round": 1,
        "home": A,
        "away": B,
        "how": how,
    } | fields
    return Result(**given)


def _results(text: str) -> Iterator[Result]:
    return (result_in(number, line) for number, line in enumerate(text.split(", ")))


def _order(found: Standings) -> str:
    assert found.unresolved == ()
    return " ".join(row.team for row in found.rows)


def _points(found: Standings, team: TeamId) -> int:
    return next(row.points for row in found.rows if row.team == team)


def _brief(found: Standings, team: TeamId) -> tuple[int, int, int]:
    row = next(row for row in found.rows if row.team == team)
    return row.points, row.goals_for, row.goals_against
