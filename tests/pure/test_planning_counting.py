"""What counting alone tells of a timetable that cannot be: exact shortages, and no false alarm."""

from dataclasses import replace
from datetime import time
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.tiny_season import EARLY, LATE, MIDDLE, at, night, pairing, question, rule, slots
from wholeball.kernel.identity import GameId, PoolId
from wholeball.planning.answer import Reason
from wholeball.planning.check import check
from wholeball.planning.counting import quick_reasons
from wholeball.planning.problem import Closed, Lock, Placement, TimetableProblem
from wholeball.planning.rule import Rule

SIX = (
    pairing("1", "Ash", "Birch"),
    pairing("2", "Cedar", "Dogwood"),
    pairing("3", "Ash", "Cedar", 2),
    pairing("4", "Birch", "Dogwood", 2),
    pairing("5", "Ash", "Dogwood", 3),
    pairing("6", "Birch", "Cedar", 3),
)
ONE = rule("games_a_night", most=1)


def told(problem: TimetableProblem) -> list[str]:
    return [one.says for one in quick_reasons(problem)]


def test_a_place_too_few_is_told_with_the_shortage_and_as_many_as_games_are_not() -> None:
    assert quick_reasons(question(SIX, slots((0, 1, 2), (EARLY,)))) == ()
    assert quick_reasons(question(SIX, slots((0, 1, 2), (EARLY,))[1:])) == (
        Reason(
            rules=("capacity",),
            says="6 games need 6 places, and there are 5: 1 too few.",
            shortage=1,
        ),
    )


def test_nights_kept_for_rain_are_no_places() -> None:
    problem = replace(
        question(SIX, slots((0, 1, 2), (EARLY,))), spare=frozenset((night(0), night(1)))
    )
    assert told(problem)[0] == "6 games need 6 places, and there are 2: 4 too few."


@pytest.mark.parametrize("field", ["F1", None])
def test_a_game_that_was_moved_to_a_night_kept_for_rain_has_its_place_there(
    field: str | None,
) -> None:
    open_to_all = question(SIX, slots((0, 1, 2, 3), (EARLY,)))
    start = open_to_all.slots[-1].start
    problem = replace(open_to_all, spare=frozenset((night(3),)))
    assert told(problem) == []
    stays = Lock(game=SIX[0].game, start=start, field=field, why="played")
    assert told(replace(problem, locks=(stays,))) == []
    assert list(replace(problem, locks=(stays,)).starts) == list(open_to_all.starts)
    closed = replace(problem, slots=problem.slots[:-2], locks=(stays,))
    assert told(closed)[-1].endswith("where there is no slot.")


@pytest.mark.parametrize(("most", "says"), [(3, []), (2, None)])
def test_weeks_hold_as_many_games_as_their_teams_may_play(
    most: int, says: list[str] | None
) -> None:
    problem = question(SIX, slots((0, 1, 2, 3), (EARLY,)), rule("games_a_week", most=most))
    expected = (
        "4 teams of 2 games a week at most play 4 games in 1 week, and 6 are to be played: 2 "
        "too few."
    )
    assert told(problem)[: 1 if says is None else None] == (
        [expected] if says is None else says
    )


@pytest.mark.parametrize(
    ("rules", "says"),
    [
        ((ONE,), []),
        (
            (ONE, rule("absent", "Ash", nights=(f"{night(2)}",))),
            [
                (
                    "Ash has 3 games and can play 2: Ash cannot play on Wednesday 6 January; Every "
                    "team plays 1 game a night at most."
                )
            ],
        ),
        ((rule("rest_days", "Ash", days=1),), []),
        (
            (ONE, rule("rest_days", "Ash", days=1)),
            [
                (
                    "Ash has 3 games and can play 2: Every team plays 1 game a night at most; Ash "
                    "has 1 free day or more between games of two nights."
                )
            ],
        ),
        (
            (rule("games_in_days", "Ash", most=2, days=7),),
            [
                "Ash has 3 games and can play 2: Ash plays 2 games at most within any 7 days.",
            ],
        ),
        (
            (rule("games_a_week", "Ash", most=1),),
            ["Ash has 3 games and can play 1: Ash plays 1 game a week at most."],
        ),
    ],
)
def test_a_team_with_more_games_than_it_can_play_is_told_with_the_rules_that_clash(
    rules: tuple[Rule, ...], says: list[str]
) -> None:
    assert told(question(SIX, slots((0, 1, 2), (EARLY, MIDDLE)), *rules, weeks=1)) == says


def test_a_team_whose_only_days_are_closed_is_told_with_its_rule_and_the_closure() -> None:
    """A team that can only play on Mondays, in a season whose Mondays are all holidays."""
    closed = slots((0, 7), (EARLY,))
    only = rule(
        "absent",
        "Ash",
        weekdays=("tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"),
    )
    problem = replace(
        question(SIX, slots((1, 2, 8), (EARLY, MIDDLE)), only, ONE),
        closed=tuple(Closed(slot=slot, by="closures.csv row 2 (holiday)") for slot in closed),
    )
    (reason,) = quick_reasons(problem)
    assert reason == Reason(
        rules=("absent",),
        says="Ash has 3 games and can play none: Ash cannot play on Tuesdays, Wednesdays, "
        "Thursdays, Fridays, Saturdays and Sundays.",
        shortage=3,
    )
    enough = replace(
        problem,
        closed=tuple(
            Closed(slot=slot, by="closures.csv row 2 (holiday)")
            for slot in slots((0, 7, 14), (EARLY,))
        ),
    )
    (reason,) = quick_reasons(enough)
    assert reason.rules == ("absent", "closures.csv row 2 (holiday)")
    assert reason.says.endswith("Sundays; closed: closures.csv row 2 (holiday).")


def test_two_teams_that_are_never_free_together_are_told_with_both_their_rules() -> None:
    rules = (
        rule("absent", "Ash", until="19:00"),
        replace(rule("absent", "Birch", from_="19:00"), rule="Birch late"),
    )
    assert quick_reasons(question(SIX, slots((0, 1, 2), (EARLY, MIDDLE)), *rules)) == (
        Reason(
            rules=("absent", "Birch late"),
            says="Game 1, Ash v Birch, has no place: Ash cannot play on any night before 19:00; "
            "Birch cannot play on any night from 19:00 on.",
            shortage=1,
        ),
    )


def test_games_that_share_too_few_places_are_told_as_a_group() -> None:
    games = (*SIX, pairing("P1", "Ash", "Birch", 4, pool=None))
    rules = (
        rule(
            "block",
            "Ash",
            "Birch",
            "Cedar",
            "Dogwood",
            games="league",
            block="Monday late",
            weekday="monday",
            opens="19:00",
            closes="21:00",
        ),
    )
    usable = slots((0, 1), (EARLY, MIDDLE, LATE))
    assert quick_reasons(question(games, usable, *rules))[-1] == Reason(
        rules=("block", "capacity"),
        says="6 games (all of pool A) can only be played on Monday 4 January, in 4 places: 2 "
        "too few.",
        shortage=2,
    )


def test_a_game_locked_where_it_cannot_be_has_no_place() -> None:
    start, field = at(3, EARLY)
    lock = Lock(game=GameId("1"), start=start, field=field, why="fixed")
    problem = replace(question(SIX, slots((0, 1, 2), (EARLY,))), locks=(lock,))
    assert told(problem) == [
        ("Game 1 is fixed for Thursday 7 January at 18:00 on F1, where there is no slot.")
    ]


CHOICE = (
    rule("games_a_night", most=1),
    rule("rest_days", days=1),
    rule("games_a_week", most=1),
    rule("games_in_days", most=1, days=3),
    rule("games_on", "Ash", most=0, nights=(f"{night(1)}",), side="first"),
    rule("absent", "Ash", nights=(f"{night(0)}",)),
    rule("absent", "Birch", until="19:00"),
    rule("not_at", names=("1",), nights=(f"{night(0)}",)),
    rule("fixed", name="2", night=f"{night(1)}", at="18:00"),
    rule("block", "Cedar", block="B", weekday="tuesday", opens="18:00", closes="20:00"),
)


@settings(deadline=None, max_examples=150)
@given(
    st.lists(st.sampled_from(CHOICE), max_size=3, unique_by=lambda one: one.rule),
    st.lists(st.sampled_from(range(8)), min_size=3, max_size=5, unique=True),
)
def test_counting_never_denies_a_plan_that_there_is(rules: list[Rule], kept: list[int]) -> None:
    """Every placement of three games is tried by the check."""
    places = slots((0, 1, 3, 8), (EARLY, time(20)), ("F1",))
    usable = [places[index] for index in kept]
    problem = question(SIX[:3], usable, *rules)
    games = [one.game for one in problem.pairings]
    has_plan = any(
        not check(
            problem,
            [
                Placement(game=game, start=slot.start, field=slot.field)
                for game, slot in zip(games, chosen, strict=True)
            ],
        ).broken
        for chosen in product(usable, repeat=len(games))
    )
    if has_plan:
        assert quick_reasons(problem) == ()


def test_at_most_six_reasons_are_given() -> None:
    games = [pairing(f"{n}", f"A{n}", f"B{n}", pool=PoolId("A")) for n in range(9)]
    rules = [
        replace(rule("absent", f"A{n}", weekdays=("monday",)), rule=f"{n}") for n in range(9)
    ]
    assert len(quick_reasons(question(games, slots((0,), (EARLY,) * 1), *rules))) == 6
