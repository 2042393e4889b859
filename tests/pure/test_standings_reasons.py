"""Why one team stands above another: each step, its figures, and what was not asked."""

import pytest

from cases.score_lines import result_in
from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import AmongLevel, Criterion
from wholeball.season.ranking import Question
from wholeball.season.reasons import Asked
from wholeball.season.standings import Regulation, Standings, standings

AGAIN = AmongLevel(among_level=("h2h_points", "h2h_difference", "h2h_goals"), again=True)
POINTS, DIFFERENCE, GOALS = (Question(criterion=AGAIN, figure=one) for one in AGAIN.among_level)
CRITERIA: tuple[Criterion, ...] = ("points", AGAIN, "difference", "goals")
LATER = (Question(criterion="difference"), Question(criterion="goals"))
LOTS = Question(criterion="lots", resort=True)
THREE_LEVEL = "A 1-0 B, A 1-2 C, A 2-0 D, B 2-1 C, B 3-0 D, C 3-1 D"
"""Constructed: A, B and C have six points each; among them C scored three, the others two."""
LEVEL_ON_SIX = Asked(question=Question(criterion="points"), above=6, below=6, verdict="level")


def test_the_goals_of_the_first_mini_table_part_c_from_a() -> None:
    separation = _table(THREE_LEVEL).neighbours[0]
    assert (separation.above, separation.below, separation.by) == ("C", "A", GOALS)
    assert separation.asked == (
        LEVEL_ON_SIX,
        _mini(POINTS, 3, 3, "level", 1, A=3, B=3, C=3),
        _mini(DIFFERENCE, 0, 0, "level", 1, A=0, B=0, C=0),
        _mini(GOALS, 3, 2, "parts", 1, A=2, B=2, C=3),
    )
    assert separation.not_asked == (*LATER, LOTS)


def test_the_points_of_a_second_mini_table_of_a_and_b_alone_part_them() -> None:
    separation = _table(THREE_LEVEL).neighbours[1]
    assert (separation.above, separation.below, separation.by) == ("A", "B", POINTS)
    assert separation.asked == (
        LEVEL_ON_SIX,
        _mini(POINTS, 3, 3, "level", 1, A=3, B=3, C=3),
        _mini(DIFFERENCE, 0, 0, "level", 1, A=0, B=0, C=0),
        _mini(GOALS, 2, 2, "level", 1, A=2, B=2, C=3),
        _mini(POINTS, 3, 0, "parts", 2, A=3, B=0),
    )
    assert separation.not_asked == (DIFFERENCE, GOALS, *LATER, LOTS)


def test_what_was_not_asked_can_still_be_shown_of_the_two_alone() -> None:
    shown = _table(THREE_LEVEL).neighbours.would_show(1)
    assert shown == (
        _mini(DIFFERENCE, 1, -1, "parts", 1, A=1, B=-1),
        _mini(GOALS, 1, 0, "parts", 1, A=1, B=0),
        Asked(question=LATER[0], above=2, below=3, verdict="parts"),
        Asked(question=LATER[1], above=4, below=5, verdict="parts"),
        Asked(question=LOTS, above=None, below=None, verdict="absent", reason="not_drawn"),
    )


def test_a_mini_table_is_made_again_only_for_sets_that_it_split() -> None:
    """A, B and C are split and made again; D and E, level throughout, are asked once."""
    others = "A 1-0 D, B 1-0 D, C 1-0 D, A 1-0 E, B 1-0 E, C 1-0 E, D 1-1 E"
    found = _table(f"A 1-0 B, A 1-2 C, B 2-1 C, {others}")
    separation = found.neighbours[3]
    assert {separation.above, separation.below} == {"D", "E"}
    asked = [one.question for one in separation.asked]
    assert asked == [Question(criterion="points"), POINTS, DIFFERENCE, GOALS, *LATER, LOTS]


def test_where_nothing_parts_two_teams_every_question_was_put_and_the_resort_is_named() -> None:
    found = _table("A 0-0 B")
    separation = found.neighbours[0]
    assert (separation.by, separation.not_asked) == (None, ())
    assert separation.last_resort == "lots"
    assert [one.question for one in separation.asked] == list(found.history.questions)
    assert [one.verdict for one in separation.asked] == ["level"] * 6 + ["absent"]
    assert ([row.place for row in found.rows], found.absences) == ([1, 1], ())


def test_absences_name_the_question_the_teams_and_the_reason() -> None:
    found = _table("A 1-0 C, B 1-0 C")
    assert [(one.question, one.round, one.teams, one.reason) for one in found.absences] == [
        (question, 1, ("A", "B"), "not_all_met") for question in (POINTS, DIFFERENCE, GOALS)
    ]
    assert found.unresolved == (("A", "B"),)


def test_neighbours_are_read_like_any_sequence() -> None:
    neighbours = _table(THREE_LEVEL).neighbours
    assert len(neighbours) == 3
    assert neighbours[-1] == neighbours[2]
    assert neighbours[1:] == [neighbours[1], neighbours[2]]
    with pytest.raises(IndexError):
        neighbours[3]


def _table(results: str) -> Standings:
    games = [result_in(number, line) for number, line in enumerate(results.split(", "))]
    return standings(
        games,
        Regulation(criteria=CRITERIA, last_resort="lots"),
        teams={team for game in games for team in (game.home, game.away)},
    )


def _mini(
    question: Question, above: int, below: int, verdict: str, count: int, **table: int
) -> Asked:
    return Asked(
        question=question,
        above=above,
        below=below,
        verdict="parts" if verdict == "parts" else "level",
        round=count,
        table=tuple((TeamId(team), figure) for team, figure in table.items()),
    )
