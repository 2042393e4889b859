"""Counts by how much rules must give way, against trying every placement of tiny questions."""

import re
from dataclasses import replace
from itertools import permutations
from random import Random

import pytest

from cases.tiny_questions import drawn, tried
from cases.tiny_season import EARLY, LATE, MIDDLE, night, pairing, question, rule, slots
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import From, Seeded
from wholeball.planning.answer import Reason
from wholeball.planning.check import check
from wholeball.planning.kinds import KINDS
from wholeball.planning.placed import Placed
from wholeball.planning.problem import Pairing, Placement, Slot, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.solvers.timetable import elastic
from wholeball.solvers.timetable.elastic import GivesWay, giving_way
from wholeball.solvers.timetable.explain import explained
from wholeball.solvers.timetable.parts import PARTS

ONE = (pairing("1", "Ash", "Birch"),)
TWO = (pairing("1", "Ash", "Birch"), pairing("2", "Ash", "Cedar", 2))
APART = (pairing("1", "Ash", "Birch"), pairing("2", "Cedar", "Dogwood"))
REPEAT = (pairing("1", "Ash", "Birch"), pairing("2", "Birch", "Ash", 2))
FINAL = (
    pairing("1", "Ash", "Birch"),
    pairing("P", From(game=GameId("1")), "Cedar", 9, pool=None),
)
THREE_STARTS = slots((0,), (EARLY, MIDDLE, LATE), ("F1",))
LONG = tuple(replace(one, minutes=90) for one in THREE_STARTS)
"""Who plays in the first of these can play in the last only."""


COUNTED = re.compile(r"has [0-9]+ games? (.*); ")


def musts(problem: TimetableProblem) -> TimetableProblem:
    """Turn each wish that can be one into a must, and drop the rest."""
    return replace(
        problem,
        rules=tuple(
            replace(one, strength="must", cost=0)
            for one in problem.rules
            if "must" in KINDS[one.kind].strengths
        ),
    )


def units(problem: TimetableProblem, plan: tuple[Placement, ...]) -> int:
    """Count by how much rules give way in a plan, from what the kinds themselves find broken.

    Too many games at one time count in the worst way of a team through the bracket; nights too
    near count once a pair of nights, whatever the number of games on them; windows of days whose
    nights all lie in another do not count.
    """
    placed = Placed(problem, plan)
    found: dict[tuple[object, ...], int] = {}
    for must in problem.rules:
        if must.kind == "games_in_days":
            found |= in_windows(must, placed)
            continue
        kind = KINDS[must.kind]
        for one in kind.breaks(must, kind.read(must), placed):
            about: object = one.games
            if counted := COUNTED.search(one.says):
                about = counted[1]
            elif must.kind == "rest_days":
                about = tuple(placed.by_game[game].start.night for game in one.games)
            key = (must.rule, one.about, about)
            found[key] = max(one.times, found.get(key, 0))
    return sum(found.values())


def in_windows(must: Rule, placed: Placed) -> dict[tuple[object, ...], int]:
    """Count the games too many of each team in each window."""
    problem = placed.problem
    params = KINDS[must.kind].read(must)
    season = (problem.last_day - problem.first_day).days + 1
    windows = {
        frozenset(
            one
            for one in placed.nights
            if 0 <= (one - problem.first_day).days - begin < params.days
        )
        for begin in range(season - params.days + 1)
    }
    found: dict[tuple[object, ...], int] = {}
    for team, games in placed.together(must):
        for nights in windows:
            if not any(nights < other for other in windows):
                over = sum(one.start.night in nights for one in games) - params.most
                key = (must.rule, team, nights)
                found[key] = max(0, over, found.get(key, 0))
    return found


def fewest(problem: TimetableProblem) -> int | None:
    """Return the fewest units of all placements; None where games do not even fit by themselves."""
    bare = replace(problem, rules=())
    counts = []
    for there in permutations(problem.slots, len(problem.pairings)):
        plan = tuple(
            Placement(game=game, start=slot.start, field=slot.field)
            for game, slot in zip(problem.by_game, there, strict=True)
        )
        if not check(bare, plan).broken:
            counts.append(units(problem, plan))
    return min(counts, default=None)


def test_every_kind_of_which_there_are_musts_can_give_way_and_no_other() -> None:
    can_be_musts = {name for name, kind in KINDS.items() if "must" in kind.strengths}
    assert {kind for kind, part in PARTS.items() if part.elastic is not None} == can_be_musts


@pytest.mark.parametrize("seed", range(100))
def test_as_much_gives_way_as_trying_everything_finds_and_nothing_where_there_is_a_plan(
    seed: int,
) -> None:
    problem = musts(drawn(Random(seed)))
    expected = fewest(problem)
    found = elastic.fewest(problem)
    if expected is None:
        assert found is None
        return
    assert found is not None
    assert (found.total, found.least) == (expected, expected)
    assert (found.total == 0) == (tried(problem) is not None)


@pytest.mark.parametrize("seed", range(20))
def test_a_relaxation_of_the_nights_is_never_above_what_trying_everything_finds(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(elastic, "COLUMNS", 0)
    problem = musts(drawn(Random(seed)))
    expected = fewest(problem)
    found = giving_way(problem)
    if expected is not None:
        assert found is not None
        assert found.least <= expected
        assert {amount for _, amount in found.breaks} <= {None}


@pytest.mark.parametrize(
    ("games", "few", "enough", "must"),
    [
        pytest.param(
            TWO,
            slots((0,), (EARLY, LATE)),
            slots((0, 1), (EARLY,)),
            rule("games_a_night", most=1),
            id="games_a_night",
        ),
        pytest.param(
            TWO,
            slots((0, 1), (EARLY,)),
            slots((0, 7), (EARLY,)),
            rule("games_a_week", most=1),
            id="games_a_week",
        ),
        pytest.param(
            TWO,
            slots((0, 2), (EARLY,)),
            slots((0, 3), (EARLY,)),
            rule("games_in_days", most=1, days=3),
            id="games_in_days",
        ),
        pytest.param(
            TWO,
            slots((0, 1), (EARLY,)),
            slots((0, 2), (EARLY,)),
            rule("rest_days", days=1),
            id="rest_days",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,)),
            slots((1,), (EARLY,)),
            rule("games_on", "Ash", most=0, nights=(f"{night(0)}",), side="any"),
            id="games_on",
        ),
        pytest.param(
            APART,
            slots((0,), (EARLY,)),
            slots((0,), (EARLY, LATE)),
            rule("never_at_once", "Ash", "Cedar"),
            id="never_at_once",
        ),
        pytest.param(
            REPEAT,
            slots((0, 1), (EARLY,)),
            slots((0, 2), (EARLY,)),
            rule("gap_between_repeats", days=2),
            id="gap_between_repeats",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,)),
            slots((0,), (LATE,)),
            rule("absent", "Ash", weekdays=("monday",), until="19:00"),
            id="absent",
        ),
        pytest.param(
            ONE,
            slots((1,), (EARLY,)),
            slots((0,), (EARLY,)),
            rule("block", "Ash", block="B", weekday="monday", opens="18:00", closes="21:00"),
            id="block",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,)),
            slots((1,), (EARLY,)),
            rule("not_at", names=("1",), nights=(f"{night(0)}",)),
            id="not_at",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,)),
            slots((0,), (LATE,)),
            rule("fixed", name="1", night=f"{night(0)}", at="20:00"),
            id="fixed",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,), ("F2",)),
            slots((0,), (EARLY,), ("F1", "F2")),
            rule("fixed", name="1", night=f"{night(0)}", at="18:00", field="F1"),
            id="fixed on a field",
        ),
        pytest.param(
            ONE,
            slots((0,), (EARLY,), ("F1",)),
            tuple(replace(one, minutes=61) for one in slots((0,), (EARLY,), ("F1",))),
            rule("length", minutes=61),
            id="length",
        ),
        pytest.param(
            TWO,
            LONG,
            THREE_STARTS,
            rule("double_header"),
            id="double_header",
        ),
        pytest.param(
            FINAL,
            slots((0,), (EARLY, MIDDLE), ("F1",)),
            slots((0,), (EARLY, LATE), ("F1",)),
            rule("after", minutes=120),
            id="after",
        ),
        pytest.param(
            TWO,
            slots((0, 7), (EARLY,), ("F1",)),
            slots((0, 1, 7), (EARLY,), ("F1",)),
            rule("even_byes", "Ash", "Birch", most=0),
            id="even_byes",
        ),
    ],
)
def test_a_rule_gives_way_once_in_the_first_season_without_a_plan_and_never_in_the_last_with_one(
    games: tuple[Pairing, ...], few: tuple[Slot, ...], enough: tuple[Slot, ...], must: Rule
) -> None:
    without, has_one = question(games, few, must), question(games, enough, must)
    assert (tried(without), tried(has_one)) == (None, 0)
    assert fewest(without) == 1
    short, fine = giving_way(without), giving_way(has_one)
    assert short is not None
    assert fine is not None
    assert (short.breaks, short.least) == (((must, 1),), 1)
    assert (fine.breaks, fine.least) == ((), 0)


def test_what_must_give_way_is_told_after_the_clash() -> None:
    never = replace(rule("never_at_once", "Ash", "Cedar"), rule="one player")
    assert explained(question(APART, slots((0,), (EARLY,)), never)).reasons == (
        Reason(
            rules=("one player",),
            says="There is no room for this: Ash and Cedar never play at once.",
        ),
        Reason(
            rules=("one player",),
            says="There would be a timetable with 1 exception, and none with fewer: Ash and "
            "Cedar never play at once (but for 1 pair of games).",
            shortage=1,
        ),
    )


def test_rules_give_way_in_play_offs_before_it_is_known_who_plays() -> None:
    """One night for a game and the final of its winner: either of two teams plays twice on it."""
    once = rule("games_a_night", most=1)
    problem = question(FINAL, slots((0,), (EARLY, LATE), ("F1",)), once)
    found = giving_way(problem)
    assert found is not None
    assert (found.breaks, found.least, fewest(problem)) == (((once, 2),), 2, 2)


def test_a_seed_that_may_be_any_team_makes_a_rule_give_way_once_a_team() -> None:
    bracket = (pairing("P", Seeded(seed=1), Seeded(seed=2), 9, pool=None),)
    away = rule("absent", weekdays=("monday",))
    problem = question((*ONE, *bracket), slots((0, 1), (EARLY,), ("F1",)), away)
    found = giving_way(problem)
    assert found is not None
    assert (found.breaks, fewest(problem)) == (((away, 2),), 2)


def test_a_rule_that_gives_way_on_one_field_is_not_paid_for_on_all() -> None:
    """Two games are to be on one field at one start; one of them is on the other."""
    fixed = [
        replace(
            rule("fixed", name=name, night=f"{night(0)}", at="18:00", field="F1"),
            rule=f"game {name}",
        )
        for name in ("1", "2")
    ]
    problem = question(APART, slots((0,), (EARLY,)), *fixed)
    found = giving_way(problem)
    assert found is not None
    assert (found.total, found.least, fewest(problem)) == (1, 1, 1)


def test_games_that_do_not_fit_even_without_rules_have_nothing_to_give_way() -> None:
    problem = question(TWO, slots((0,), (EARLY,)), rule("rest_days", days=1))
    assert (elastic.fewest(problem), fewest(problem)) == (None, None)


def test_several_rules_are_told_each_with_its_own_amount() -> None:
    first = replace(rule("never_at_once", "Ash", "Cedar"), rule="one player")
    second = replace(rule("never_at_once", "Birch", "Dogwood"), rule="another")
    problem = question(APART, slots((0,), (EARLY,)), first, second)
    assert fewest(problem) == 2
    assert explained(problem).reasons[1:] == (
        Reason(
            rules=("one player", "another"),
            says="There would be a timetable with 2 exceptions, and none with fewer: Ash and "
            "Cedar never play at once (but for 1 pair of games); Birch and Dogwood never play at "
            "once (but for 1 pair of games).",
            shortage=2,
        ),
    )


def test_of_a_season_too_large_the_rules_of_the_relaxation_are_told_with_the_least(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Nights alone cannot tell that two games begin at once, so they know of one rule only."""
    never = replace(rule("never_at_once", "Ash", "Cedar"), rule="one player")
    once = replace(rule("gap_between_repeats", days=2), rule="not so soon")
    monkeypatch.setattr(elastic, "COLUMNS", 0)
    games = (*REPEAT, pairing("3", "Cedar", "Dogwood"))
    problem = question(
        games, (*slots((0,), (EARLY,)), *slots((1,), (EARLY,), ("F1",))), never, once
    )
    assert fewest(problem) == 2
    assert giving_way(problem) == GivesWay(breaks=((once, None),), least=1)
    assert explained(problem).reasons[1:] == (
        Reason(
            rules=("not so soon",),
            says="Rules would have to give way 1 time at least: Two teams meet again after 2 days at "
            "the earliest.",
        ),
    )
