"""What a plan breaks whatever the rules say: games without a place, twice, or at one time.

The kinds and their meaning are common practice, no source.
"""

from datetime import time

import pytest

from cases.four_games import APART, FOUR, PASS, PLACES, asked
from cases.tiny_season import EARLY, at, night, plan, question, rule, slots
from wholeball.kernel.identity import GameId
from wholeball.planning.answer import Broken
from wholeball.planning.check import check
from wholeball.planning.problem import Lock, Start, TimetableProblem


def test_a_plan_in_which_every_game_has_its_own_place_passes() -> None:
    assert check(asked(), plan(APART)) == PASS


def test_a_game_without_a_place_and_one_that_nobody_knows_are_named() -> None:
    places = plan({**APART, "9": at(8, EARLY)})[1:]
    assert check(asked(), places).broken == (
        Broken(rule="once", games=(GameId("1"),), says="Game 1 has no place."),
        Broken(rule="once", games=(GameId("9"),), says="Game 9 is no game of this season."),
    )


def test_a_game_with_two_places_and_a_place_with_two_games_are_named() -> None:
    twice = (*plan(APART), *plan({"1": at(7, EARLY)}))
    assert [(one.rule, one.says) for one in check(asked(), twice).broken] == [
        ("once", "Game 1 has 2 places."),
        ("capacity", "F1 on Monday 11 January at 18:00 has 2 games."),
        ("at once", "Ash plays games 1 and 3 at one time."),
    ]


def test_a_team_plays_one_game_at_a_time_whatever_the_rules_say() -> None:
    places = plan({**APART, "3": at(0, EARLY, "F2")})
    assert check(asked(), places).broken == (
        Broken(
            rule="at once",
            games=(GameId("1"), GameId("3")),
            says="Ash plays games 1 and 3 at one time.",
        ),
    )


@pytest.mark.parametrize(("at_", "broken"), [(time(19), 0), (time(18, 59), 1)])
def test_a_game_that_begins_before_another_has_ended_is_at_one_time(
    at_: time, broken: int
) -> None:
    problem = question(FOUR, (*PLACES, *slots((0,), (time(18, 59),), ("F3",))))
    field = "F2" if at_ == time(19) else "F3"
    found_ = check(problem, plan({**APART, "2": at(8, EARLY), "3": at(0, at_, field)})).broken
    assert [one.says for one in found_] == ["Ash plays games 1 and 3 at one time."] * broken


def test_a_place_that_there_is_not_is_named() -> None:
    places = plan({**APART, "1": at(3, EARLY), "2": at(0, EARLY, "F9")})
    assert [(one.rule, one.says) for one in check(asked(), places).broken] == [
        ("places", "F1 on Thursday 7 January at 18:00 cannot be used."),
        ("places", "F9 on Monday 4 January at 18:00 cannot be used."),
    ]


@pytest.mark.parametrize(("field", "holds"), [(None, True), ("F1", True), ("F2", False)])
def test_a_locked_game_stays_at_its_start_and_on_its_field(
    field: str | None, *, holds: bool
) -> None:
    lock = Lock(game=GameId("1"), start=Start(night(0), EARLY), field=field, why="announced")
    problem = asked()
    locked = TimetableProblem(
        timezone=problem.timezone,
        first_day=problem.first_day,
        last_day=problem.last_day,
        teams=problem.teams,
        pairings=problem.pairings,
        slots=problem.slots,
        rules=(),
        locks=(lock,),
    )
    moved = check(locked, plan({**APART, "1": at(1, EARLY)})).broken
    assert [one.says for one in moved] == ["Game 1 is announced elsewhere."]
    assert (check(locked, plan(APART)) == PASS) == holds


def test_a_rule_of_an_unknown_kind_is_an_error() -> None:
    with pytest.raises(KeyError, match="moonlight"):
        check(asked(rule("moonlight")), plan(APART))
