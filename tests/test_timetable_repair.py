"""Mends small timetables whose least change can be seen with the naked eye, and a whole season."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, time
from functools import cache

import pytest
from benchmarks.instances import SIZES, season

from cases.four_games import APART, FOUR
from cases.tiny_season import EARLY, LATE, MIDDLE, at, night, pairing, question, rule, slots
from cases.tiny_season import plan as placed
from wholeball.kernel.identity import GameId, PoolId, SiteId, TeamId
from wholeball.league.fixture import From
from wholeball.planning.answer import Impossible, Plan
from wholeball.planning.check import check
from wholeball.planning.difference import Moved, difference, told
from wholeball.planning.problem import Lock, PlannedTeam, Slot, Start, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.changes import (
    Added,
    Change,
    LostField,
    LostNight,
    LostSite,
    MovedBlock,
    Withdrawn,
    changed,
)
from wholeball.solvers.timetable.plan import plan
from wholeball.solvers.timetable.repair import Repaired, repair

SMALL = Budget(work=2.0)
KNOCK_OUT = (
    pairing("S1", "Ash", "Birch", 3, pool=None),
    pairing("S2", "Cedar", "Dogwood", 3, pool=None),
    pairing("F", From(game=GameId("S1")), From(game=GameId("S2")), 4, pool=None),
    pairing(
        "T",
        From(game=GameId("S1"), takes="loser"),
        From(game=GameId("S2"), takes="loser"),
        4,
        pool=None,
    ),
)
BRACKET = {one.game: tuple(map(str, one.sides)) for one in KNOCK_OUT}
MORNING = time(8)


def announced(usable: Iterable[Slot], *rules: Rule) -> TimetableProblem:
    return replace(question(FOUR, usable, *rules), announced=placed(APART))


def mended(
    problem: TimetableProblem, *changes: Change, days: int, at_: time = MORNING
) -> Repaired:
    found = repair(problem, changes, SMALL, now=datetime.combine(night(days), at_))
    assert isinstance(found, Repaired)
    assert check(found.problem, found.plan.placements).broken == ()
    return found


def where(found: Repaired) -> dict[str, tuple[Start, str]]:
    return {one.game: (one.start, one.field) for one in found.plan.placements}


USABLE = slots((0, 7, 8), (EARLY, MIDDLE, LATE))


def test_a_season_to_which_nothing_happens_stays_as_it_is() -> None:
    found = mended(announced(USABLE, rule("open_start", cost=9)), days=0)
    assert (where(found), found.moved, found.is_least) == (APART, (), True)


def test_games_of_a_lost_night_go_to_the_same_week_before_another_and_nothing_else_moves() -> (
    None
):
    found = mended(announced(USABLE), LostNight(night=night(7)), days=7)
    assert {one.game: one.how for one in found.moved} == {"3": "week", "4": "week"}
    assert where(found)["1"] == APART["1"]
    assert found.is_least


def test_a_night_kept_for_rain_is_used_by_a_repair_and_not_before() -> None:
    problem = replace(announced(USABLE), spare=frozenset({night(8)}))
    found = mended(problem, LostNight(night=night(7)), days=7)
    assert {one.start.night for one in found.plan.placements} == {night(0), night(8)}


def test_games_of_a_lost_field_keep_their_start_where_another_field_is_free() -> None:
    found = mended(announced(USABLE), LostField(field="F1", night=night(7)), days=7)
    assert [(one.game, one.how) for one in found.moved] == [("3", "field"), ("4", "field")]
    later = mended(announced(USABLE), LostField(field="F1"), days=7)
    assert later.moved == found.moved


def test_a_repair_is_proven_least_also_where_slots_of_one_start_end_at_other_times() -> None:
    longer = tuple(replace(one, minutes=80) if one.field == "F2" else one for one in USABLE)
    both = placed({**APART, "4": at(7, EARLY, "F2")})
    found = mended(
        replace(announced(longer), announced=both),
        LostField(field="F2", night=night(7)),
        days=7,
    )
    assert [(one.game, one.how) for one in found.moved] == [("4", "night")]
    assert found.is_least


def test_games_of_a_lost_site_go_to_the_other_at_the_same_start() -> None:
    other = tuple(
        replace(one, field="G1", site=SiteId("Orchard")) for one in USABLE if one.field == "F1"
    )
    found = mended(announced((*USABLE, *other)), LostSite(site=SiteId("Meadow")), days=1)
    assert {one.game: (one.how, one.now.field if one.now else "") for one in found.moved} == {
        "3": ("field", "G1"),
        "4": ("field", "G1"),
    }


def test_a_rule_that_changes_moves_games_within_their_night_and_leaves_what_was_played() -> (
    None
):
    """Game 1 was played on a Monday at six; Ash may no longer play then, but has."""
    before = replace(rule("absent", "Ash", weekdays=("sunday",)), rule="early Mondays")
    problem = announced(slots((0, 7, 8), (EARLY, MIDDLE, LATE), ("F1",)), before)
    after = rule("absent", "Ash", weekdays=("monday",), until="18:30")
    change = MovedBlock(rule=replace(after, rule="early Mondays"))
    found = mended(problem, change, days=1)
    assert [(one.game, one.how) for one in found.moved] == [("3", "night")]
    assert where(found) == {**APART, "3": at(7, LATE)}
    assert mended(problem, change, days=8).moved == ()


def test_a_game_that_breaks_a_rule_with_one_that_was_played_moves_and_that_alone() -> None:
    """Two games a week have been played; the third of that week is one too many."""
    fifth = (*FOUR, pairing("5", "Ash", "Dogwood", 3))
    told_of = placed({**APART, "3": at(1, EARLY), "5": at(3, EARLY)})
    weekly = rule("games_a_week", "Ash", most=9)
    usable = slots((0, 1, 3, 7, 8), (EARLY, MIDDLE, LATE))
    problem = replace(question(fifth, usable, weekly), announced=told_of)
    change = MovedBlock(rule=rule("games_a_week", "Ash", most=1))
    found = mended(problem, change, days=2)
    assert [(one.game, one.how) for one in found.moved] == [("5", "season")]


def test_a_game_within_three_days_stays_where_a_later_one_can_move_for_it() -> None:
    """Both moves are of one step; 72 hours before kick-off the first is still free to move."""
    three = (FOUR[2], pairing("9", "Ash", "Dogwood", 3))
    usable = slots((3, 4, 5), (EARLY,), ("F1",))
    told_of = placed({"3": at(3, EARLY), "9": at(4, EARLY)})
    rest = rule("rest_days", "Ash", days=1)
    loose = rule("rest_days", "Birch", days=1)
    problem = replace(question(three, usable, replace(loose, rule="rest")), announced=told_of)
    change = MovedBlock(rule=replace(rest, rule="rest"))
    found = mended(problem, change, days=0, at_=time(18))
    assert [one.game for one in found.moved] == ["9"]


def test_games_of_a_team_that_leaves_are_dropped_and_the_others_stay() -> None:
    lone = rule("never_at_once", "Ash", "Dogwood")
    found = mended(announced(USABLE, lone), Withdrawn(team=TeamId("Dogwood")), days=3)
    assert [(one.game, one.how) for one in found.moved] == [("4", "dropped")]
    assert [one.team for one in found.problem.teams] == ["Ash", "Birch", "Cedar"]
    assert [one.game for one in found.problem.pairings] == ["1", "2", "3"]
    gone = mended(announced(USABLE, lone), Withdrawn(team=TeamId("Dogwood")), days=0)
    assert [one.team for one in gone.problem.teams] == ["Ash", "Birch", "Cedar"]
    assert gone.problem.rules == ()


@pytest.mark.parametrize(
    ("leaves", "sides"),
    [
        ("Ash", {"S2": ("Cedar", "Dogwood"), "F": ("Birch", "winner of S2")}),
        ("Elm", BRACKET),
    ],
)
def test_who_meets_a_team_that_left_in_the_bracket_goes_on_without_playing(
    leaves: str, sides: dict[str, tuple[str, str]]
) -> None:
    problem = question(KNOCK_OUT, slots((0, 7), (EARLY, MIDDLE)))
    left = changed(
        problem,
        (Withdrawn(team=TeamId(leaves)),),
        now=datetime.combine(night(-1), MORNING),
    )
    assert {one.game: tuple(map(str, one.sides)) for one in left.pairings} == sides


def test_games_of_a_team_that_comes_are_placed_and_the_others_stay() -> None:
    elm = PlannedTeam(team=TeamId("Elm"), pool=PoolId("A"))
    change = Added(team=elm, games=(pairing("5", "Elm", "Ash", 3),))
    found = mended(announced(USABLE, rule("games_a_night", most=1)), change, days=3)
    assert [(one.game, one.how, one.now) for one in found.moved] == [
        ("5", "added", where_of(found, "5"))
    ]
    assert where(found)["5"][0].night == night(8)


def where_of(found: Repaired, game: str) -> object:
    return next(one for one in found.plan.placements if one.game == game)


def test_what_was_played_stays_though_the_rules_are_others_now() -> None:
    found = mended(announced(USABLE), LostNight(night=night(0)), days=0, at_=time(19))
    assert where(found)["1"] == APART["1"]
    assert [one.game for one in found.moved] == ["2"]


@pytest.mark.parametrize(
    "change",
    [
        LostNight(night=night(7)),
        LostSite(site=SiteId("Meadow"), night=night(7)),
        LostField(field="F1", night=night(7)),
        LostField(field="F1"),
    ],
)
@pytest.mark.parametrize("usable", [USABLE, slots((0, 7), (EARLY, MIDDLE), ("F1",))])
def test_a_game_with_a_result_keeps_a_place_that_is_lost_before_its_start(
    change: Change, usable: tuple[Slot, ...]
) -> None:
    """Both games of the place have results: nothing moves, also where no other place is free."""
    played = tuple(
        Lock(game=GameId(game), start=start, field=field, why="played")
        for game, (start, field) in APART.items()
    )
    found = mended(replace(announced(usable), locks=played), change, days=7)
    assert (where(found), found.moved, found.is_least) == (APART, (), True)
    alone = tuple(one for one in played if one.game != "4")
    if usable == USABLE:
        found = mended(replace(announced(usable), locks=alone), change, days=7)
        assert [one.game for one in found.moved] == ["4"]


def test_a_repair_that_cannot_be_says_why() -> None:
    problem = announced(slots((0, 7), (EARLY, MIDDLE), ("F1",)))
    found = repair(
        problem, [LostNight(night=night(7))], SMALL, now=datetime.combine(night(7), MORNING)
    )
    assert isinstance(found, Impossible)
    assert found.reasons[0].shortage == 2


def test_every_team_is_told_of_its_games_in_words() -> None:
    after = {**APART, "1": at(0, EARLY, "F2"), "3": at(8, LATE)}
    moved = difference(placed(APART), placed({k: v for k, v in after.items() if k != "4"}))
    assert [(one.game, one.how) for one in moved] == [
        ("1", "field"),
        ("3", "week"),
        ("4", "dropped"),
    ]
    old, new = "Monday 11 January at 18:00, F1", "Tuesday 12 January at 20:00, F1"
    dropped = "is not played. It was Monday 11 January at 19:00, F1."
    assert told(moved, {one.game: one for one in FOUR}) == {
        "Ash": (
            "Game 1 against Birch keeps its start and moves from F1 to F2.",
            f"Game 3 against Cedar moves from {old} to {new}.",
        ),
        "Birch": (
            "Game 1 against Ash keeps its start and moves from F1 to F2.",
            f"Game 4 against Dogwood {dropped}",
        ),
        "Cedar": (f"Game 3 against Ash moves from {old} to {new}.",),
        "Dogwood": (f"Game 4 against Birch {dropped}",),
    }


def test_a_game_that_is_where_it_was_is_no_difference() -> None:
    assert difference(placed(APART), placed(APART)) == ()
    new = difference((), placed({"1": at(0, LATE)}))
    assert [(one.how, one.was) for one in new] == [("added", None)]
    assert told(new, {one.game: one for one in FOUR})[TeamId("Birch")] == (
        "Game 1 against Ash is new: Monday 4 January at 20:00, F1.",
    )
    assert Moved(game=GameId("1"), was=None, now=new[0].now) == new[0]


@cache
def planned_season() -> TimetableProblem:
    problem = season(SIZES["S"], 2)
    found = plan(problem, Budget(work=20.0))
    assert isinstance(found, Plan)
    return replace(problem, announced=found.placements)


@pytest.mark.parametrize("lost", [0, 4, 8])
def test_a_lost_night_of_a_season_moves_its_games_first(lost: int) -> None:
    problem = planned_season()
    nights = sorted({one.start.night for one in problem.announced})
    gone = nights[lost]
    found = repair(
        problem, [LostNight(night=gone)], Budget(work=20.0), now=datetime.combine(gone, MORNING)
    )
    if isinstance(found, Impossible):
        assert found.reasons
        return
    assert check(found.problem, found.plan.placements).broken == ()
    assert found.is_least
    here = {one.game for one in problem.announced if one.start.night == gone}
    assert here <= {one.game for one in found.moved}
    before = {one.game: one for one in problem.announced}
    assert all(
        one == before[one.game] for one in found.plan.placements if one.start.night < gone
    )
