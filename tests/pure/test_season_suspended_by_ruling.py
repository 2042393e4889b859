"""What rulings of the discipline body do to suspensions; common practice, no source."""

from datetime import date

from cases.season_people import fixture, sheet
from cases.suspended import AL, WORLD_CUP, rules, served, told, yellows
from wholeball.kernel.identity import GameId
from wholeball.season.decision import Decision


def decided(number: int, day: int, ruled: str, **keys: object) -> Decision:
    return Decision(number=number, day=date(2026, 9, day), person=AL, ruled=ruled, **keys)  # type: ignore[arg-type]


def test_a_ruling_about_the_red_gives_another_number_of_games() -> None:
    games = [sheet(fixture(1), shown={"al": "red"})]
    games += [sheet(fixture(day)) for day in (2, 3, 4)]
    three = decided(1, 2, "games", games=2, game=GameId("A1"), ref="H 11.4")
    assert served(told(games, WORLD_CUP, decisions=(three,))) == [("red", ["A2", "A3"])]


def test_a_ruling_never_reaches_back_to_games_played_before_it() -> None:
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(2), appeared=["bo"]),
        sheet(fixture(3), appeared=["al", "bo"]),
        sheet(fixture(5), appeared=["bo"]),
    ]
    longer = decided(1, 4, "games", games=3, game=GameId("A1"))
    found = told(games, WORLD_CUP, decisions=(longer,))
    assert (served(found), found.breaches) == ([("red", ["A2", "A5"])], ())
    assert [one.left for one in found.open] == [1]


def test_a_suspension_until_a_day_holds_on_that_day_and_not_on_the_next() -> None:
    until = decided(1, 1, "until", until=date(2026, 9, 5))
    found = told([], rules(), fixture(5), fixture(6), decisions=(until,), on=date(2026, 9, 2))
    assert list(found.barred) == ["A5"]
    assert [(one.cause, one.until) for one in found.open] == [("ruling", date(2026, 9, 5))]


def test_what_is_lifted_ends_on_that_day() -> None:
    games = [sheet(fixture(1), shown={"al": "red"})]
    lifted = decided(1, 3, "lifted", game=GameId("A1"))
    found = told(
        games,
        rules(red=9, second_red=9),
        fixture(2),
        fixture(3),
        decisions=(lifted,),
        on=date(2026, 9, 2),
    )
    assert list(found.barred) == ["A2"]


def test_a_ruling_about_a_game_without_a_red_suspends_from_its_own_day() -> None:
    games = [sheet(fixture(1)), sheet(fixture(2)), sheet(fixture(3)), sheet(fixture(4))]
    one = decided(1, 3, "games", games=1, game=GameId("A1"), ref="H 11.4")
    found = told(games, rules(), decisions=(one,))
    assert served(found) == [("ruling", ["A3"])]
    assert [(kept.article, kept.league) for kept in found.suspensions] == [("H 11.4", None)]


def test_a_ruling_about_the_game_of_the_last_yellow_shapes_that_suspension_alone() -> None:
    games = [*yellows(1, 2), *(sheet(fixture(day)) for day in (3, 4, 5))]
    two = decided(1, 2, "games", games=2, game=GameId("A2"))
    assert served(told(games, WORLD_CUP, decisions=(two,))) == [("yellows", ["A3", "A4"])]
