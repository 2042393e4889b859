"""Figures, days, reasons and rulings read the way people say them."""

from datetime import UTC, date, datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from wholeball.kernel.identity import GameId, Side, TeamId
from wholeball.reports.dates import day, moment
from wholeball.reports.figures import figure_text, question_name, signed
from wholeball.reports.not_as_played import Change, changes, forfeit_points
from wholeball.reports.reasons import reason
from wholeball.rulebook.criteria import (
    AmongLevel,
    CappedDifference,
    Criterion,
    LastResort,
    LevelFigure,
)
from wholeball.season.column import Quantity
from wholeball.season.count import Counting, Deduction, ForfeitCounting
from wholeball.season.ranking import Question
from wholeball.season.result import How, Result
from wholeball.season.ruled import as_ruled
from wholeball.season.ruling import Ruling
from wholeball.season.standings import Regulation, Standings, standings
from wholeball.season.tally import Lots, OutsideFigures
from wholeball.season.upheld import Upheld

ASH, BIRCH, CEDAR = TeamId("Ash"), TeamId("Birch"), TeamId("Cedar")
HEAD_TO_HEAD: tuple[LevelFigure, ...] = ("h2h_points", "h2h_difference", "h2h_goals")
MINUS, TO = "\N{MINUS SIGN}", "\N{EN DASH}"


def _game(number: int, home: TeamId, away: TeamId, goals: tuple[int, int]) -> Result:
    return Result(
        game=GameId(f"G{number}"),
        round=1,
        home=home,
        away=away,
        home_goals=goals[0],
        away_goals=goals[1],
    )


def _table(
    criteria: tuple[Criterion, ...],
    results: list[Result],
    *,
    last: LastResort = "lots",
    lots: tuple[Lots, ...] = (),
) -> Standings:
    teams = sorted({team for one in results for team in (one.home, one.away)})
    return standings(
        results,
        Regulation(criteria=criteria, last_resort=last),
        teams=teams,
        outside=OutsideFigures(lots=lots),
    )


@pytest.mark.parametrize(
    ("figure", "criterion", "text"),
    [
        (3, "points", "3"),
        (-2, "points", f"{MINUS}2"),
        (4, "difference", "+4"),
        (0, "difference", "0"),
        (-12, "difference", f"{MINUS}12"),
        (Fraction(5, 2), "points_per_game", "2.5"),
        (Fraction(3), "points_per_game", "3"),
        (Fraction(7, 3), "points_per_game", "7/3 (about 2.333)"),
        (Decimal("21.500"), "outside_ranking", "21.500"),
        ("infinite", "goal_average", "no goals against"),
        (None, "ratings_average", "not known"),
        (1, CappedDifference(capped_difference=5), "+1"),
    ],
)
def test_a_figure_is_printed_as_people_read_it(
    figure: Quantity | None, criterion: Criterion, text: str
) -> None:
    assert figure_text(figure, Question(criterion=criterion)) == text


def test_a_question_of_a_mini_table_says_among_whom() -> None:
    step = AmongLevel(among_level=HEAD_TO_HEAD)
    asked = question_name(Question(criterion=step, figure="h2h_goals"))
    assert asked == "Goals scored in the games among them"


def test_signs_are_true_signs() -> None:
    assert [signed(number) for number in (-1_234, 0, 7)] == [f"{MINUS}1,234", "0", "+7"]


def test_days_and_moments_are_the_same_on_every_machine() -> None:
    assert day(date(2026, 10, 13)) == "Tuesday 13 October 2026"
    assert moment(datetime(2027, 1, 3, 7, 5, tzinfo=UTC)) == "Sunday 3 January 2027, 07:05"


def test_a_mini_table_shows_every_level_team_best_first() -> None:
    step = AmongLevel(among_level=HEAD_TO_HEAD)
    circle = [
        _game(1, ASH, BIRCH, (1, 0)),
        _game(2, BIRCH, CEDAR, (3, 0)),
        _game(3, CEDAR, ASH, (1, 0)),
    ]
    table = _table(("points", step), circle)
    assert [row.team for row in table.rows] == [BIRCH, ASH, CEDAR]
    parted = f"Birch +2, Ash 0, Cedar {MINUS}2"
    assert reason(table.neighbours[0], would_show=table.neighbours.would_show(0)) == (
        "Level on 3 points. Why is Birch above Ash?",
        "Points: Birch 3, Ash 3. Level.",
        "Points in the games among them: Ash 3, Birch 3, Cedar 3. Level.",
        f"Goal difference in the games among them: {parted}. This parts them.",
        "Goals scored in the games among them: not asked. (Birch 0, Ash 1.)",
        "Lots drawn: not asked. (It could not have been: nothing has been drawn or decided.)",
    )


def test_teams_that_nothing_parts_are_said_to_share_the_place_until_lots_are_drawn() -> None:
    table = _table(("points", "goals"), [_game(1, ASH, BIRCH, (1, 1))])
    assert reason(table.neighbours[0]) == (
        "Level on 1 point. Why do Ash and Birch share a place?",
        "Points: Ash 1, Birch 1. Level.",
        "Goals scored: Ash 1, Birch 1. Level.",
        "Lots drawn: could not be asked, since nothing has been drawn or decided.",
        "Nothing parts them. They share the place until lots are drawn.",
    )


def test_a_lot_is_said_with_the_name_of_its_draw() -> None:
    lots = (Lots(label="autumn 1", order=(BIRCH, ASH)),)
    table = _table(("points",), [_game(1, ASH, BIRCH, (1, 1))], lots=lots)
    assert reason(table.neighbours[0])[-1] == (
        "Lots drawn: Birch 1, Ash 2. Draw autumn 1. This parts them."
    )


def test_names_may_stand_in_for_identities() -> None:
    table = _table(("points",), [_game(1, ASH, BIRCH, (1, 1))], last="shared")
    assert reason(table.neighbours[0], {ASH: "A. {Team}"}) == (
        "Level on 1 point. Why do A. {Team} and Birch share a place?",
        "Points: A. {Team} 1, Birch 1. Level.",
        "Nothing parts them. They share the place; the rules ask nothing more.",
    )


@pytest.mark.parametrize(
    ("result", "says"),
    [
        (
            Result(
                game=GameId("G1"), round=1, home=ASH, away=BIRCH, how="awarded",
                away_goals=3, played_score=(3, 2),
            ),
            f"Game G1, Ash v Birch: played 3{TO}2; awarded 0{TO}3 by ruling.",
        ),
        (
            Result(game=GameId("G2"), round=1, home=ASH, away=BIRCH, how="forfeit", by="home"),
            f"Game G2, Ash v Birch: forfeited by Ash; counts 0{TO}4.",
        ),
        (
            Result(game=GameId("G3"), round=1, home=ASH, away=BIRCH, how="default", by="away"),
            f"Game G3, Ash v Birch: defaulted by Birch; won by Ash 2{TO}0; its goals do not count.",
        ),
        (
            Result(game=GameId("G4"), round=1, home=ASH, away=BIRCH, how="double_forfeit"),
            "Game G4, Ash v Birch: forfeited by both, both lose.",
        ),
        (
            Result(
                game=GameId("G5"), round=1, home=ASH, away=BIRCH, how="annulled",
                played_score=(1, 0),
            ),
            f"Game G5, Ash v Birch: played 1{TO}0; annulled, counts for nothing.",
        ),
    ],
)  # fmt: skip
def test_a_game_that_does_not_stand_as_played_says_both(result: Result, says: str) -> None:
    counting = Counting(
        forfeit=ForfeitCounting(goals_for=4),
        default=ForfeitCounting(goals_for=2, counts_in_difference=False),
    )
    found = changes(Upheld(results=(result,)), (), counting, {}, {result.game: "ruling 4"})
    assert [(str(one.says), one.why) for one in found] == [(says, "ruling 4")]


@pytest.mark.parametrize(
    ("before", "ruling", "says"),
    [
        (
            {"home_goals": 3, "away_goals": 2},
            {"ruled": "awarded", "goals": (0, 3)},
            f"played 3{TO}2; awarded 0{TO}3 by ruling 4 (H 3.5).",
        ),
        (
            {"home_goals": 3, "away_goals": 2},
            {"ruled": "forfeit", "by": "home"},
            f"played 3{TO}2; forfeited by Ash by ruling 4 (H 3.5); counts 0{TO}4.",
        ),
        (
            {"home_goals": 3, "away_goals": 2},
            {"ruled": "annulled"},
            f"played 3{TO}2; annulled by ruling 4 (H 3.5), counts for nothing.",
        ),
        (
            {"how": "forfeit", "by": "home"},
            {"ruled": "stands"},
            f"forfeited by Ash; counts 0{TO}4; stands by ruling 4 (H 3.5).",
        ),
        (
            {"how": "forfeit", "by": "home"},
            {"ruled": "awarded", "goals": (1, 1)},
            f"awarded 1{TO}1 by ruling 4 (H 3.5).",
        ),
    ],
)
def test_a_game_that_was_ruled_on_says_by_which_ruling_and_article(
    before: dict[str, Any], ruling: dict[str, Any], says: str
) -> None:
    game = GameId("G1")
    made = Ruling(number=4, game=game, ref="H 3.5", why="Two {shirts}.", **ruling)
    result = as_ruled(Result(game=game, round=1, home=ASH, away=BIRCH, **before), made)
    counting = Counting(forfeit=ForfeitCounting(goals_for=4))
    found = changes(Upheld(results=(result,)), (), counting, {}, {game: "Heard."}, {4: made})
    assert found == (Change(says=found[0].says, why="Two {shirts}. Heard.", result=result, ruling=made),)  # fmt: skip
    assert str(found[0].says) == f"Game G1, Ash v Birch: {says}"


def test_a_game_that_stands_as_it_was_played_is_left_out() -> None:
    game = GameId("G1")
    made = Ruling(number=4, game=game, ref="H 3.5", why="Nothing was wrong.", ruled="stands")
    plain = Result(game=game, round=1, home=ASH, away=BIRCH, home_goals=3, away_goals=2)
    stand = Upheld(results=(as_ruled(plain, made),))
    assert (
        changes(stand, (), Counting(forfeit=ForfeitCounting(goals_for=4)), {}, {}, {4: made})
        == ()
    )


@pytest.mark.parametrize(
    ("points", "how", "by", "says"),
    [
        (0, "forfeit", "home", f"forfeited by Ash; counts 0{TO}3."),
        (-1, "forfeit", "home", f"forfeited by Ash; counts 0{TO}3; 1 point off Ash for the forfeit."),
        (-2, "forfeit", "away", f"forfeited by Birch; counts 3{TO}0; 2 points off Birch for the forfeit."),
        (-1, "default", "home", f"defaulted by Ash; counts 0{TO}3."),
        (-1, "double_forfeit", None, "forfeited by both, both lose; 1 point off each for the forfeit."),
    ],
)  # fmt: skip
def test_a_forfeit_that_costs_points_says_how_many(
    points: int, how: How, by: Side | None, says: str
) -> None:
    result = Result(game=GameId("G1"), round=1, home=ASH, away=BIRCH, how=how, by=by)
    counting = Counting(forfeit=ForfeitCounting(goals_for=3, points_loser=points))
    stand = Upheld(results=(result,))
    (found,) = changes(stand, (), counting, {}, {})
    assert str(found.says) == f"Game G1, Ash v Birch: {says}"
    table = standings([result], Regulation(criteria=("points",), last_resort="lots", counting=counting), teams=[ASH, BIRCH])  # fmt: skip
    below = {row.team: row.points for row in table.rows if row.points < 0}
    assert forfeit_points(stand, counting) == below


def test_a_deduction_says_how_many_points_and_points_given_back_are_given() -> None:
    taken = Deduction(team=ASH, points=1, why="Late waivers.", ref="ruling 5", round=2)
    given = Deduction(team=BIRCH, points=-3, why="Upheld.", ref="ruling 6")
    found = changes(Upheld(results=()), (taken, given), Counting(), {}, {})
    assert [(str(one.says), one.why) for one in found] == [
        ("Ash: 1 point taken off from round 2 on, by ruling 5.", "Late waivers."),
        ("Birch: 3 points given from round 1 on, by ruling 6.", "Upheld."),
    ]
