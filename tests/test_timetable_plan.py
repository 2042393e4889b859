"""Plans against trying everything: the best of all placements, judged by the check alone.

The questions are invented; the seasons are those of the benchmarks.
"""

from dataclasses import replace
from functools import cache
from random import Random

import numpy as np
import pytest
from benchmarks.instances import SIZES, season

from cases.tiny_questions import drawn, tried
from cases.tiny_season import EARLY, LATE, MIDDLE, night, pairing, question, rule, slots
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, Seeded
from wholeball.planning.answer import Impossible, Plan
from wholeball.planning.check import check
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import Lock, TimetableProblem
from wholeball.solvers.timetable.bound import bound, proven
from wholeball.solvers.timetable.budget import Budget, Progress
from wholeball.solvers.timetable.greedy import by_hand
from wholeball.solvers.timetable.least import REFUSES, RELAXED, ROWS, Least
from wholeball.solvers.timetable.parts import PARTS
from wholeball.solvers.timetable.plan import plan

SMALL = Budget(work=2.0)


@cache
def small_season() -> TimetableProblem:
    return season(SIZES["S"], seed=2)


@cache
def small_plan() -> Plan:
    found = plan(small_season(), SMALL)
    assert isinstance(found, Plan)
    return found


@pytest.mark.parametrize("seed", range(200))
def test_no_plan_is_cheaper_than_the_bound_and_an_optimal_one_is_the_best_of_all(
    seed: int,
) -> None:
    problem = drawn(Random(seed))
    best = tried(problem)
    found = plan(problem, SMALL)
    least = bound(problem)
    if best is None:
        assert isinstance(found, Impossible)
        return
    assert isinstance(found, Plan)
    assert check(problem, found.placements).broken == ()
    assert check(problem, found.placements).total == found.total
    assert least <= best <= found.total
    assert found.bound <= best
    assert found.proof == ("optimal" if found.total == found.bound else "gap")
    assert found.proof == "gap" or found.total == best


def test_every_kind_of_rule_has_one_part_of_the_model_and_one_place_in_the_bound() -> None:
    assert set(PARTS) == set(KINDS)
    assert set(REFUSES) | set(ROWS) | RELAXED == set(KINDS)
    assert len(REFUSES) + len(ROWS) + len(RELAXED) == len(KINDS)


@pytest.mark.parametrize(("seed", "cost"), [(1, 237), (2, 234), (3, 210)])
def test_a_season_of_sixty_games_is_planned_as_well_as_can_be(seed: int, cost: int) -> None:
    """That no plan costs less is proven by the bound; the numbers are found, no source."""
    problem = season(SIZES["S"], seed)
    found = plan(problem, Budget(work=20.0))
    assert isinstance(found, Plan)
    assert (found.total, found.bound, found.proof) == (cost, cost, "optimal")
    assert check(problem, found.placements).broken == ()


def test_the_same_work_and_seed_give_the_same_plan() -> None:
    assert plan(small_season(), SMALL) == small_plan()


def test_other_names_of_teams_and_games_change_nothing_of_the_cost() -> None:
    problem = small_season()
    teams = [one.team for one in problem.teams]
    other = dict(
        zip(teams, [TeamId(f"Z{900 - number}") for number in range(len(teams))], strict=True)
    )
    renamed = replace(
        problem,
        teams=tuple(replace(one, team=other[one.team]) for one in problem.teams),
        pairings=tuple(
            replace(
                one,
                game=GameId(f"g{999 - int(one.game)}"),
                home=other[TeamId(f"{one.home}")],
                away=other[TeamId(f"{one.away}")],
            )
            for one in problem.pairings
        ),
        rules=tuple(
            replace(one, teams=tuple(other[team] for team in one.teams))
            for one in problem.rules
        ),
    )
    found = plan(renamed, SMALL)
    assert isinstance(found, Plan)
    assert (found.total, found.bound) == (small_plan().total, small_plan().bound)


def test_a_night_more_in_a_week_that_is_played_never_makes_the_best_plan_dearer() -> None:
    problem = season(SIZES["S"], seed=3)
    last = max(slot.night for slot in problem.slots)
    more = tuple(
        replace(slot, night=last.replace(day=last.day + 1))
        for slot in problem.slots
        if slot.night == last
    )
    before = plan(problem, SMALL)
    found = plan(replace(problem, slots=(*problem.slots, *more)), SMALL)
    assert isinstance(before, Plan)
    assert isinstance(found, Plan)
    assert before.proof == found.proof == "optimal"
    assert found.total <= before.total


def test_locking_the_best_plan_keeps_it() -> None:
    best = small_plan()
    locks = tuple(
        Lock(game=one.game, start=one.start, field=one.field, why="announced")
        for one in best.placements
    )
    found = plan(replace(small_season(), locks=locks), SMALL)
    assert isinstance(found, Plan)
    assert set(found.placements) == set(best.placements)
    assert (found.total, found.proof) == (best.total, "optimal")


def test_a_search_beats_the_hand() -> None:
    hand = by_hand(small_season())
    assert check(small_season(), hand.placements).broken == ()
    assert hand.unplaced == ()
    assert small_plan().total < hand.total == check(small_season(), hand.placements).total


def test_a_hand_charges_a_hundred_for_a_game_that_it_cannot_place() -> None:
    two = (pairing("1", "Ash", "Birch"), pairing("2", "Cedar", "Dogwood"))
    hand = by_hand(question(two, slots((0,), (EARLY,), ("F1",))))
    assert ([one.game for one in hand.placements], hand.unplaced, hand.total) == (
        ["1"],
        ("2",),
        100,
    )


def test_a_search_that_is_stopped_keeps_the_best_so_far() -> None:
    told: list[Progress] = []
    found = plan(
        season(SIZES["M"], 1),
        Budget(seconds=120.0, workers=1),
        on_progress=told.append,
        stop=lambda: bool(told),
    )
    assert isinstance(found, Plan)
    assert found.total <= (told[0].best or 0)
    assert found.bound <= found.total
    assert told[0].left > 0


def test_prices_of_rows_prove_nothing_false_whatever_they_are() -> None:
    rows = Least(small_season()).rows
    draws = Random(5)
    for _ in range(20):
        prices = [draws.uniform(-9, 9) for _ in rows.rows]
        assert proven(rows, np.array(prices)) <= small_plan().total


BRACKET = (
    pairing("1", "Ash", "Birch"),
    pairing("2", "Cedar", "Dogwood"),
    pairing("S1", Seeded(seed=1), Seeded(seed=4), 2, pool=None),
    pairing("S2", Seeded(seed=2), Seeded(seed=3), 2, pool=None),
    pairing("F", From(game=GameId("S1")), From(game=GameId("S2")), 3, pool=None),
)
ONE_NIGHT = slots((0,), (EARLY, MIDDLE, LATE))


def test_a_bracket_is_planned_before_anybody_knows_who_plays_in_it() -> None:
    found = plan(question(BRACKET, ONE_NIGHT, rule("after", minutes=60)), SMALL)
    assert isinstance(found, Plan)
    starts = {one.game: one.start.at for one in found.placements}
    assert starts == {"1": EARLY, "2": EARLY, "S1": MIDDLE, "S2": MIDDLE, "F": LATE}


def test_a_bracket_that_would_begin_a_minute_too_soon_is_impossible() -> None:
    found = plan(question(BRACKET, ONE_NIGHT, rule("after", minutes=61)), SMALL)
    assert isinstance(found, Impossible)
    assert found.reasons[-1].rules == ("after",)


def test_an_open_side_is_kept_from_where_one_of_its_teams_cannot_play() -> None:
    places = slots((0, 1, 2), (EARLY,), ("F1",))
    cup = (
        BRACKET[0],
        BRACKET[1],
        pairing("F", From(game=GameId("1")), From(game=GameId("2")), 3, pool=None),
    )
    absent = rule("absent", "Dogwood", nights=(f"{night(2)}",))
    assert isinstance(plan(question(cup, places, rule("after", minutes=60)), SMALL), Plan)
    found = plan(question(cup, places, rule("after", minutes=60), absent), SMALL)
    assert isinstance(found, Impossible)


def test_fields_are_shared_out_where_a_rule_asks_for_it() -> None:
    twice = (pairing("1", "Ash", "Birch"), pairing("2", "Ash", "Birch", 2))
    problem = question(twice, slots((0, 7), (EARLY,)), rule("even_fields", cost=3))
    found = plan(problem, SMALL)
    assert isinstance(found, Plan)
    assert ({one.field for one in found.placements}, found.total) == ({"F1", "F2"}, 0)


def test_games_that_need_long_slots_leave_short_ones_to_others() -> None:
    long, short = slots((0,), (EARLY,))
    usable = (long, replace(short, minutes=45))
    cup = (BRACKET[0], pairing("P", "Cedar", "Dogwood", pool=None))
    found = plan(question(cup, usable, rule("length", games="play_off", minutes=60)), SMALL)
    assert isinstance(found, Plan)
    assert {one.game: one.field for one in found.placements} == {"P": "F1", "1": "F2"}


def test_a_slot_that_ends_late_keeps_a_team_from_the_next_start() -> None:
    twice = (pairing("1", "Ash", "Birch"), pairing("2", "Ash", "Cedar"))
    for minutes, kind in ((60, Plan), (61, Impossible)):
        usable = tuple(
            replace(one, minutes=minutes) for one in slots((0,), (EARLY, MIDDLE), ("F1",))
        )
        assert isinstance(plan(question(twice, usable), SMALL), kind)


def test_a_season_without_games_has_a_plan_and_one_without_places_has_none() -> None:
    empty = question((), slots((0,), (EARLY,)), rule("open_start", cost=2))
    assert plan(empty, SMALL) == Plan(placements=(), total=0, bound=0.0, proof="optimal")
    assert isinstance(plan(question(BRACKET[:1], ()), SMALL), Impossible)
    assert by_hand(empty).placements == ()
