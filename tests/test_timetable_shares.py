"""Fields shared out among teams: against trying every field, and where many are alike.

The questions are invented.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import permutations, product
from random import Random
from typing import Final

import pytest

from cases.tiny_season import EARLY, LATE, MIDDLE, night, pairing, question, rule, slots
from wholeball.kernel.identity import GameId
from wholeball.planning.answer import Plan
from wholeball.planning.check import check
from wholeball.planning.problem import Pairing, Placement, Slot, Start, TimetableProblem
from wholeball.solvers.timetable.budget import Budget, Progress
from wholeball.solvers.timetable.fields import placements
from wholeball.solvers.timetable.parts import asked
from wholeball.solvers.timetable.plan import plan
from wholeball.solvers.timetable.search import Search

TEAMS: Final = ("Ash", "Birch", "Cedar", "Dogwood", "Elm")
FIELDS: Final = ("F1", "F2", "F3")


def shared(
    problem: TimetableProblem, starts: Mapping[GameId, Start], search: Search
) -> tuple[Placement, ...]:
    """Return the games on fields of these starts."""
    asked_ = asked(problem)
    numbers = {game: asked_.number[start] for game, start in starts.items()}
    return placements(asked_, numbers, search)


@pytest.mark.parametrize("seed", range(40))
def test_no_other_fields_of_the_same_starts_cost_less(seed: int) -> None:
    draws = Random(seed)
    games: list[Pairing] = []
    starts: dict[GameId, Start] = {}
    for day, at in product((0, 1), (EARLY, MIDDLE)):
        sides = iter(draws.sample(TEAMS, 4))
        for home, away in zip(sides, sides, strict=True):
            games.append(pairing(f"{len(games)}", home, away))
            starts[games[-1].game] = Start(night(day), at)
    problem = question(
        games,
        slots((0, 1), (EARLY, MIDDLE), FIELDS),
        rule("even_fields", cost=draws.randint(1, 3)),
        rule("even_fields", *draws.sample(TEAMS, 2), cost=2),
    )
    found = check(problem, shared(problem, starts, Search(Budget(work=1.0))))
    assert found.broken == ()
    assert found.total == min(
        check(problem, one).total for one in every_field(problem.slots, starts)
    )


def every_field(
    usable: Sequence[Slot], starts: Mapping[GameId, Start]
) -> Iterator[tuple[Placement, ...]]:
    """Yield the games on all fields that they may have at their starts."""
    ways = []
    for start in sorted(set(starts.values())):
        here = [game for game, one in starts.items() if one == start]
        fields = [slot.field for slot in usable if slot.start == start]
        ways.append(
            [
                [Placement(game=game, start=start, field=field) for game, field in pairs]
                for pairs in (
                    zip(here, one, strict=True) for one in permutations(fields, len(here))
                )
            ]
        )
    for one in product(*ways):
        yield tuple(placement for part in one for placement in part)


def many(rounds: int) -> tuple[TimetableProblem, Mapping[GameId, Start]]:
    """Return two pools of eight that meet once, on nights of two starts on four fields."""
    games = [one for round_ in range(rounds) for pool in "AB" for one in round_of(pool, round_)]
    starts = {
        one.game: Start(night(one.round - 1), (EARLY, LATE)[number // 4 % 2])
        for number, one in enumerate(games)
    }
    usable = slots(range(rounds), (EARLY, LATE), (*FIELDS, "F4"))
    return question(games, usable, rule("even_fields", cost=2)), starts


def round_of(pool: str, number: int) -> Iterator[Pairing]:
    """Yield a round of eight teams: one stays, the others go round (the circle method)."""
    turning = [(number + step) % 7 for step in range(7)]
    pairs = [(7, turning[0]), *((turning[step], turning[-step]) for step in (1, 2, 3))]
    for home, away in pairs:
        game = f"{pool}{number}-{home}"
        yield pairing(game, f"{pool}{home}", f"{pool}{away}", number + 1)


def test_a_start_is_shared_out_with_an_eye_to_the_fields_of_all_others() -> None:
    twice = (pairing("1", "Ash", "Birch"), pairing("2", "Ash", "Birch", 2))
    problem = question(twice, slots((0, 7), (EARLY,), FIELDS), rule("even_fields", cost=3))
    starts = {GameId("1"): Start(night(0), EARLY), GameId("2"): Start(night(7), EARLY)}
    found = shared(problem, starts, Search(Budget(work=0.0), stop=lambda: True))
    assert check(problem, found).total == 0


def test_a_stopped_search_shares_out_each_start_once_and_one_that_goes_on_all_of_them(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("wholeball.solvers.timetable.shares.FREE", 2)
    problem, starts = many(7)
    unasked = shared(replace(problem, rules=()), starts, Search(Budget(work=0.0)))
    stopped = shared(problem, starts, Search(Budget(work=0.0), stop=lambda: True))
    goes_on = shared(problem, starts, Search(Budget(work=0.0)))
    totals = [check(problem, one).total for one in (unasked, stopped, goes_on)]
    assert totals == sorted(set(totals), reverse=True)
    assert totals[-1] == 0


def test_what_is_told_last_is_what_the_plan_costs() -> None:
    problem, _ = many(3)
    told: list[Progress] = []
    found = plan(problem, Budget(work=1.0), on_progress=told.append)
    assert isinstance(found, Plan)
    assert told[-1].best == found.total
