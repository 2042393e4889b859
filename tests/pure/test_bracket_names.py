"""A bracket calls its games what the timetable calls them; no outside source."""

from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, OpenSide, Seeded
from wholeball.season.bracket import BracketGame, bracket
from wholeball.season.bracket_names import named_as_listed
from wholeball.season.bracket_run import Line, run
from wholeball.season.result import Result

A, B, C, D = (TeamId(name) for name in ("Alders", "Birches", "Cedars", "Dogwoods"))
SEEDS = {1: A, 2: B, 3: C, 4: D}
GAMES = bracket(4, third_place=False)


def listed(game: str, home: TeamId | OpenSide, away: TeamId | OpenSide) -> BracketGame:
    return BracketGame(game=GameId(game), round=6, home=home, away=away)


def seed(number: int, bracket: str = "") -> Seeded:
    return Seeded(seed=number, bracket=bracket)


def told(lines: tuple[Line, ...]) -> list[tuple[str, object, object]]:
    return [(line.game.game, line.game.home, line.game.away) for line in lines]


def test_games_have_the_names_of_the_timetable_and_the_final_waits_for_these() -> None:
    lines = named_as_listed(run(GAMES, SEEDS, []), [listed("P2", D, A), listed("P1", B, C)])
    assert [one[0] for one in told(lines)] == ["P2", "P1", "P3"]
    assert told(lines)[2][1:] == (From(game=GameId("P2")), From(game=GameId("P1")))


def test_a_game_that_waits_has_the_name_of_the_one_with_its_seeds_or_the_games_before_it() -> (
    None
):
    plan = [
        listed("S1", seed(4), seed(1)),
        listed("S2", seed(2), seed(3)),
        listed("F1", From(game=GameId("S2")), From(game=GameId("S1"))),
    ]
    assert [one[0] for one in told(named_as_listed(run(GAMES, SEEDS, []), plan))] == [
        "S1",
        "S2",
        "F1",
    ]
    assert [one[0] for one in told(named_as_listed(run(GAMES, SEEDS, []), plan[:2]))] == [
        "S1",
        "S2",
        "P3",
    ]


def test_seeds_are_those_of_the_bracket_alone() -> None:
    lines, plan = run(GAMES, SEEDS, []), [listed("S1", seed(1, "Open"), seed(4, "Open"))]
    assert named_as_listed(lines, plan) == lines
    assert told(named_as_listed(lines, plan, bracket="Open"))[0][0] == "S1"


def test_one_side_may_be_known_and_the_other_not() -> None:
    lines = run(GAMES, SEEDS, [])
    assert told(named_as_listed(lines, [listed("S1", A, seed(4))]))[0][0] == "S1"
    assert named_as_listed(lines, [listed("S1", A, seed(3))]) == lines


def test_all_keep_their_names_where_two_would_have_one() -> None:
    lines = run(GAMES, SEEDS, [])
    assert named_as_listed(lines, [listed("P3", A, D)]) == lines
    assert named_as_listed(lines, [listed("P4", A, D)]) != lines


@given(st.permutations(["P1", "P2", "P3"]))
def test_what_stands_is_the_same_under_any_names(names: list[str]) -> None:
    results = [
        Result(game=GameId("s"), round=6, home=A, away=D, home_goals=2, away_goals=1),
        Result(game=GameId("t"), round=6, home=C, away=B, home_goals=3, away_goals=0),
    ]
    lines = run(GAMES, SEEDS, results)
    sides = ((A, D), (B, C), (A, C))
    plan = [listed(name, *pair) for name, pair in zip(names, sides, strict=True)]
    found = named_as_listed(lines, plan)
    assert [one[0] for one in told(found)] == names
    assert [(one.home, one.away, one.winner) for one in found] == [
        (one.home, one.away, one.winner) for one in lines
    ]
