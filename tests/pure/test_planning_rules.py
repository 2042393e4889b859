"""What a plan breaks, kind by kind: the last plan that holds and the first that does not.

The kinds and their meaning are common practice, no source.
"""

from dataclasses import replace
from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.four_games import APART, FOUR, PLACES, asked
from cases.tiny_season import EARLY, LATE, MIDDLE, at, night, pairing, plan, question, rule
from wholeball.kernel.identity import TeamId
from wholeball.planning.answer import Report
from wholeball.planning.check import check
from wholeball.planning.problem import Placement, Start
from wholeball.planning.rule import Rule


def found(one: Rule, places: dict[str, tuple[Start, str]]) -> list[tuple[tuple[str, ...], str]]:
    """Return the games and the words of everything that breaks one rule."""
    report = check(asked(one), plan(places))
    if one.strength == "must":
        assert report.lines == ()
        return [(broken.games, broken.says) for broken in report.broken]
    assert report.broken == ()
    return [((line.about,), line.says) for line in report.lines]


BOTH_AT_ONCE = {**APART, "3": at(0, LATE)}

CASES = [
    (
        rule("games_a_night", most=1),
        APART,
        BOTH_AT_ONCE,
        [
            (("1", "3"), "Ash has 2 games on Monday 4 January; 1 at most."),
            (("2", "3"), "Cedar has 2 games on Monday 4 January; 1 at most."),
        ],
    ),
    (
        rule("games_a_week", "Ash", most=1),
        APART,
        {**APART, "3": at(2, EARLY)},
        [(("1", "3"), "Ash has 2 games in week 1; 1 at most.")],
    ),
    (
        rule("games_in_days", "Ash", most=1, days=7),
        APART,
        {**APART, "1": at(1, EARLY)},
        [
            (
                ("1", "3"),
                "Ash has 2 games from Tuesday 5 January to Monday 11 January; 1 at most.",
            )
        ],
    ),
    (
        rule("rest_days", "Ash", days=1),
        {**APART, "3": at(2, EARLY)},
        {**APART, "3": at(1, EARLY)},
        [(("1", "3"), "Ash plays games 1 and 3 with 0 free days between.")],
    ),
    (
        rule("games_on", "Ash", nights=(f"{night(0)}", f"{night(7)}"), most=1),
        {**APART, "3": at(8, EARLY)},
        APART,
        [(("1", "3"), "Ash has 2 games on Monday 4 January and 1 other night; 1 at most.")],
    ),
    (
        rule("games_on", "Ash", "Birch", nights=(f"{night(0)}",), most=0, side="second"),
        {**APART, "1": at(1, EARLY)},
        APART,
        [(("1",), "Birch has 1 game on Monday 4 January; 0 at most.")],
    ),
    (
        rule("double_header", starts_between=0),
        {**APART, "3": at(0, MIDDLE, "F2"), "2": at(0, EARLY, "F2")},
        {**APART, "2": at(1, EARLY), "3": at(0, LATE)},
        [(("1", "3"), "Ash waits 1 start between 1 and 3.")],
    ),
    (
        rule(
            "block",
            "Ash",
            "Birch",
            block="Monday early",
            weekday="monday",
            opens="18:00",
            closes="20:00",
        ),
        {**APART, "1": at(0, MIDDLE, "F2"), "4": at(7, MIDDLE)},
        {**APART, "3": at(7, LATE), "4": at(8, MIDDLE)},
        [
            (("3",), "Ash plays game 3 on Monday 11 January at 20:00, outside Monday early."),
            (
                ("4",),
                "Birch plays game 4 on Tuesday 12 January at 19:00, outside Monday early.",
            ),
        ],
    ),
    (
        rule("absent", "Ash", weekdays=("monday",), from_="19:00"),
        APART,
        {**APART, "3": at(7, MIDDLE, "F2")},
        [
            (
                ("3",),
                "Ash plays game 3 on Monday 11 January at 19:00, when they cannot play.",
            )
        ],
    ),
    (
        rule("absent", "Ash", nights=(f"{night(7)}",), until="19:00"),
        {**APART, "3": at(7, MIDDLE, "F2")},
        APART,
        [(("3",), "Ash plays game 3 on Monday 11 January at 18:00, when they cannot play.")],
    ),
    (
        rule("not_at", names=("1",), nights=(f"{night(0)}",), from_="18:30"),
        APART,
        {**APART, "1": at(0, LATE)},
        [(("1",), "Game 1 is on Monday 4 January at 20:00.")],
    ),
    (
        rule("never_at_once", "Ash", "Dogwood"),
        APART,
        {**APART, "2": at(0, EARLY, "F2")},
        [(("1", "2"), "Ash and Dogwood play 1 and 2 0 minutes apart.")],
    ),
    (
        rule("never_at_once", "Ash", "Dogwood", minutes=61),
        {**APART, "2": at(0, LATE), "4": at(8, MIDDLE)},
        {**APART, "4": at(8, MIDDLE)},
        [(("1", "2"), "Ash and Dogwood play 1 and 2 60 minutes apart.")],
    ),
    (
        rule("fixed", name="1", night=f"{night(0)}", at="18:00", field="F1"),
        APART,
        {**APART, "1": at(0, EARLY, "F2")},
        [(("1",), "Game 1 is on Monday 4 January at 18:00, F2.")],
    ),
    (
        rule("even_byes", most=0),
        APART,
        {**APART, "3": at(2, EARLY)},
        [
            ((), "Ash is idle in 1 week, another team in 0."),
            ((), "Cedar is idle in 1 week, another team in 0."),
        ],
    ),
    (
        rule("even_starts", cost=5, which="late"),
        {**APART, "1": at(0, LATE)},
        {**APART, "1": at(0, LATE), "3": at(7, LATE)},
        [(("Ash",), "Ash plays late 2 times; 1 would be its share.")],
    ),
    (
        rule("even_starts", "Birch", cost=2, which="early"),
        APART,
        {**APART, "4": at(7, EARLY, "F2")},
        [(("Birch",), "Birch plays early 2 times; 1 would be its share.")],
    ),
    (
        rule("even_fields", "Ash", cost=1),
        {**APART, "3": at(7, EARLY, "F2")},
        APART,
        [(("Ash",), "Ash plays on F1 2 times; 1 would be its share.")],
    ),
    (
        rule("next_to_each_other", "Ash", "Dogwood", cost=1),
        APART,
        {**APART, "2": at(0, LATE)},
        [
            (
                ("Ash and Dogwood",),
                "Ash and Dogwood play 1 and 2 on one night, not one after the other.",
            )
        ],
    ),
    (
        rule("idle_week", "Ash", cost=4),
        APART,
        {**APART, "3": at(2, EARLY)},
        [(("Ash",), "Ash has no game in week 2.")],
    ),
]


@pytest.mark.parametrize(
    ("one", "holds", "breaks", "says"),
    CASES,
    ids=[f"{index}-{case[0].kind}" for index, case in enumerate(CASES)],
)
def test_a_rule_holds_in_the_last_plan_and_breaks_in_the_first(
    one: Rule,
    holds: dict[str, tuple[Start, str]],
    breaks: dict[str, tuple[Start, str]],
    says: list[tuple[tuple[str, ...], str]],
) -> None:
    assert found(one, holds) == []
    assert found(one, breaks) == says


def test_a_slot_of_an_hour_is_enough_for_60_minutes_and_too_short_for_61() -> None:
    cup = (*FOUR[:3], pairing("4", "Birch", "Dogwood", 2, pool=None))
    for minutes, broken in (
        (60, []),
        (61, ["Game 4 has 60 minutes on F1 on Monday 11 January at 19:00; it needs 61."]),
    ):
        problem = question(cup, PLACES, rule("length", games="play_off", minutes=minutes))
        assert [one.says for one in check(problem, plan(APART)).broken] == broken


def test_teams_meet_again_after_the_days_they_are_to_have() -> None:
    again = (*FOUR[:3], pairing("4", "Birch", "Ash", 2))
    for days, broken in (
        (7, []),
        (8, ["Ash and Birch meet again after 7 days; 8 at least."]),
    ):
        problem = question(again, PLACES, rule("gap_between_repeats", days=days))
        assert [one.says for one in check(problem, plan(APART)).broken] == broken


RULES = [rule("length", minutes=61), *(case[0] for case in CASES)]


@given(st.permutations(sorted(APART)), st.sampled_from(RULES))
def test_the_order_of_placements_never_matters(order: list[str], one: Rule) -> None:
    places = plan(BOTH_AT_ONCE)
    shuffled: list[Placement] = sorted(places, key=lambda each: order.index(each.game))
    assert check(asked(one), shuffled) == check(asked(one), places)


NAMES = ("Ash", "Birch", "Cedar", "Dogwood")


@given(st.permutations(NAMES), st.sampled_from(RULES))
def test_teams_by_other_names_break_the_same_rules_as_often(
    names: list[str], one: Rule
) -> None:
    """Exchange the names of all teams, in games and rule alike; the rest stays."""
    new = dict(zip(NAMES, names, strict=True))
    games = [
        pairing(game.game, new[f"{game.home}"], new[f"{game.away}"], game.round)
        for game in FOUR
    ]
    renamed = replace(one, teams=tuple(TeamId(new[team]) for team in one.teams))
    before = check(asked(one), plan(BOTH_AT_ONCE))
    after = check(question(games, PLACES, renamed), plan(BOTH_AT_ONCE))
    assert sorted(_figures(before)) == sorted(_figures(after))


def _figures(report: Report) -> list[tuple[object, ...]]:
    return [
        *((one.rule, tuple(sorted(one.games))) for one in report.broken),
        *((one.rule, (f"{one.times}", f"{one.cost}")) for one in report.lines),
    ]


def test_a_plan_at_starts_that_there_are_not_is_told_and_not_an_error() -> None:
    places = plan({game: at(5, time(3), "F9") for game in APART})
    report = check(asked(*RULES), places)
    assert {one.rule for one in report.broken} >= {"places", "capacity", "at once"}


def test_an_empty_plan_lacks_every_game_and_nothing_else() -> None:
    rules = [one for one in RULES if one.kind != "even_byes"]
    report = check(asked(*rules), ())
    assert [one.says for one in report.broken] == [
        f"Game {n} has no place." for n in range(1, 5)
    ]
