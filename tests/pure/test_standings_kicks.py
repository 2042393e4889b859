"""Kicks from the mark part level teams in a play-off match, and count nowhere else."""

import pytest

from wholeball.kernel.identity import GameId, TeamId
from wholeball.rulebook.criteria import Criterion
from wholeball.season.result import Result
from wholeball.season.standings import Regulation, standings
from wholeball.season.tally import OutsideFigures

A, B = TeamId("A"), TeamId("B")
CRITERIA: tuple[Criterion, ...] = ("points", "play_off_match")
REGULATION = Regulation(criteria=CRITERIA, last_resort="shared")


def match(home: TeamId, away: TeamId, goals: int, kicks: tuple[int, int] | None) -> Result:
    return Result(
        game=GameId("p"),
        round=9,
        home=home,
        away=away,
        home_goals=goals,
        away_goals=1,
        kicks=kicks,
    )


def places(results: list[Result], *play_offs: Result) -> list[tuple[int, str]]:
    outside = OutsideFigures(play_offs=play_offs)
    table = standings(results, REGULATION, teams=[A, B], outside=outside)
    return [(row.place, row.team) for row in table.rows]


@pytest.mark.parametrize(
    ("play_off", "expected"),
    [
        (match(A, B, 1, None), [(1, "A"), (1, "B")]),
        (match(A, B, 1, (3, 4)), [(1, "B"), (2, "A")]),
        (match(A, B, 1, (4, 3)), [(1, "A"), (2, "B")]),
        (match(B, A, 1, (5, 4)), [(1, "B"), (2, "A")]),
        (match(B, A, 0, None), [(1, "A"), (2, "B")]),
    ],
)
def test_a_level_play_off_match_is_won_by_the_side_that_won_its_kicks(
    play_off: Result, expected: list[tuple[int, str]]
) -> None:
    assert places([], play_off) == expected


def test_a_level_game_of_the_table_is_drawn_whatever_its_kicks_came_to() -> None:
    assert places([match(A, B, 1, (0, 3))]) == [(1, "A"), (1, "B")]


def test_the_kicks_of_a_game_are_never_fewer_than_none() -> None:
    with pytest.raises(ValueError, match="kicks are 0 or more"):
        match(A, B, 1, (0, -1))
