"""Says why there is no timetable: sentences literally, and cures that have been tried."""

from dataclasses import replace
from itertools import combinations
from random import Random

import pytest
from benchmarks.instances import SIZES, season

from cases.four_games import FOUR
from cases.tiny_season import EARLY, LATE, MIDDLE, night, pairing, question, rule, slots
from wholeball.planning.answer import Cure, Impossible, Reason
from wholeball.planning.counting import quick_reasons
from wholeball.planning.problem import Slot, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.reports.timetable_words import infeasible
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.clash import clash
from wholeball.solvers.timetable.explain import explained
from wholeball.solvers.timetable.plan import can_be
from wholeball.solvers.timetable.what_if import helps, more_pools, with_pools, with_spare


def named(rule_: Rule, name: str) -> Rule:
    return replace(rule_, rule=name)


@pytest.mark.parametrize(("size", "games", "kept"), [("S", 60, 48), ("M", 240, 192)])
def test_a_season_a_quarter_too_large_is_told_its_exact_shortage(
    size: str, games: int, kept: int
) -> None:
    whole = season(SIZES[size], 1)
    small = replace(whole, slots=whole.slots[:kept])
    first = explained(small).reasons[0]
    assert (first.rules, first.shortage) == (("capacity",), games - kept)
    assert first.says.startswith(f"{games} games need {games} places, and there are {kept}")


def test_a_shortage_that_counting_does_not_see_is_counted_by_the_relaxation() -> None:
    """Two nights of fifteen are lost: every team has nights enough, three together have not."""
    whole = season(SIZES["S"], 1)
    nights = sorted({slot.night for slot in whole.slots})
    lost = {nights[2], nights[11]}
    less = replace(whole, slots=tuple(one for one in whole.slots if one.night not in lost))
    assert quick_reasons(less) == ()
    assert explained(less).reasons == (
        Reason(
            rules=("rest",),
            says="1 game has no place. It is about games of T001, T002 and T005. Every team has "
            "1 free day or more between games of two nights.",
            shortage=1,
        ),
        Reason(
            rules=("T002 absent: weekday",),
            says="There would be a timetable with 1 exception, and none with fewer: T002 cannot "
            "play on Tuesdays (but for 1 game).",
            shortage=1,
        ),
    )


def test_games_that_fit_by_no_rule_at_all_are_told_so() -> None:
    """Three teams that all meet need three nights of one start, since no team plays twice."""
    pairs = combinations(("Ash", "Birch", "Cedar"), 2)
    three = [pairing(f"{number}", a, b) for number, (a, b) in enumerate(pairs, 1)]
    assert explained(question(three, slots((0, 1, 2), (EARLY,)))).reasons == ()
    assert explained(question(three, slots((0, 1), (EARLY,)))).reasons == (
        Reason(
            rules=("at once",),
            says="The games do not fit into the starts, even without rules: no team plays two "
            "at once.",
        ),
    )


def test_a_clash_is_as_small_as_can_be_and_names_what_teams_ask_for() -> None:
    absent = [
        named(rule("absent", "Ash", weekdays=("monday",), from_="19:00"), "Ash leaves early"),
        named(
            rule("absent", "Dogwood", weekdays=("monday",), until="18:30"), "Dogwood is late"
        ),
        named(rule("absent", "Birch", weekdays=("tuesday",)), "Birch on Tuesdays"),
        named(rule("never_at_once", "Ash", "Birch"), "Ash and Birch"),
    ]
    games = (pairing("1", "Ash", "Cedar"), pairing("2", "Birch", "Elm"))
    usable = slots((0,), (EARLY,))
    problem = question(games, usable, *absent)
    assert clash(problem) == ("Ash and Birch",)
    freed = replace(problem, slots=slots((0,), (EARLY, MIDDLE)))
    assert clash(freed) is None
    assert can_be(freed)


def test_a_clash_that_no_count_finds_is_told_in_the_sentences_of_its_rules() -> None:
    games = (pairing("1", "Ash", "Cedar"), pairing("2", "Birch", "Elm"))
    together = named(rule("never_at_once", "Ash", "Birch"), "one player")
    found = explained(question(games, slots((0,), (EARLY,)), together), can_be)
    assert found.reasons == (
        Reason(
            rules=("one player",),
            says="There is no room for this: Ash and Birch never play at once.",
        ),
        Reason(
            rules=("one player",),
            says="There would be a timetable with 1 exception, and none with fewer: Ash and "
            "Birch never play at once (but for 1 pair of games).",
            shortage=1,
        ),
    )
    assert found.cures == (
        Cure(says="Play one start more at the end of every night.", changes="start"),
        Cure(
            says="Play one night more, such as Sunday 17 January.", changes="night 2027-01-17"
        ),
        Cure(
            says="Let go of one rule: Ash and Birch never play at once.",
            changes="rule one player",
        ),
    )


def test_slots_that_are_too_short_are_made_longer_and_the_length_of_a_game_is_not_let_go() -> (
    None
):
    games = (pairing("1", "Ash", "Cedar"),)
    long = named(rule("length", minutes=600), "how long a game takes")
    found = explained(question(games, slots((0,), (EARLY,)), long), can_be)
    [cure] = [one for one in found.cures if one.changes == "rule how long a game takes"]
    assert cure.says == (
        "Make the slots that are there long enough, by minutes in slots.csv: "
        "A game has 600 minutes at least, with its turnover."
    )


def test_a_game_fewer_is_a_cure_where_one_has_no_place() -> None:
    problem = question(FOUR[:2], slots((0,), (EARLY,), ("F1",)))
    found = explained(problem, lambda one: len(one.slots) == 1 and can_be(one))
    assert [one.changes for one in found.cures] == ["game 1", "game 2"]


def test_a_season_too_large_to_try_is_given_cures_that_counting_finds() -> None:
    """Four hundred places of two thousand are gone; 150 starts have one field more each."""
    whole = season(SIZES["L"], 1)
    small = replace(whole, slots=tuple(Random(1).sample(whole.slots, 1600)))
    found = explained(small)
    assert [one.shortage for one in found.reasons] == [400]
    assert found.cures == (
        Cure(says="Use 3 fields more at every start.", changes="fields", is_tried=False),
        Cure(
            says="Play 2 weeks more like the one of Monday 4 January: Monday 15 February to "
            "Sunday 28 February.",
            changes="weeks",
            is_tried=False,
        ),
        Cure(
            says="Play 1 start more at the end of every night.",
            changes="starts",
            is_tried=False,
        ),
    )
    (fault,) = infeasible(found)
    assert fault.cure.startswith(
        "By counting there is room if you do this; no plan was tried: Use 3 fields more at every "
        "start, Play 2 weeks more like "
    )


def test_a_cure_that_is_counted_out_has_a_plan_where_one_is_tried() -> None:
    """A season of sixty games is small enough to try what counting says is enough."""
    whole = season(SIZES["S"], 1)
    small = replace(whole, slots=tuple(Random(1).sample(whole.slots, 48)))
    first = explained(small).cures[0]
    assert first.says == "Use 1 field more at every start."
    one_a_start = {slot.start: replace(slot, field="one more") for slot in small.slots}
    assert not can_be(small)
    assert can_be(replace(small, slots=(*small.slots, *one_a_start.values())))


@pytest.mark.parametrize(
    ("usable", "says"),
    [
        # One place for four games of one night and start: three weeks more, and no field helps.
        (
            slots((0,), (EARLY,), ("F1",)),
            ["Play 3 weeks more like the one of Monday 4 January: "],
        ),
        # Three places for four games; a team plays once a night at most by the clock of a start.
        (
            slots((0,), (EARLY, MIDDLE, LATE), ("F1",)),
            [
                "Use 1 field more at every start.",
                "Play 1 week more like the one of Monday 4 January: ",
                "Play 1 start more at the end of every night.",
            ],
        ),
        # Ash can never play: a rule too many, and places enough.
        ((), []),
    ],
)
def test_as_much_is_asked_for_as_counting_says_is_short(
    usable: tuple[Slot, ...], says: list[str]
) -> None:
    cures = explained(question(FOUR, usable)).cures
    assert len(cures) >= len(says)
    for cure, begins in zip(cures, says, strict=False):
        assert cure.says.startswith(begins)
        assert not cure.is_tried


def test_a_rule_that_every_reason_names_is_let_go_of_and_no_other() -> None:
    usable = slots((0, 7), (EARLY, MIDDLE, LATE))
    away = named(rule("absent", "Ash", weekdays=("monday",)), "Ash is away")
    once = named(rule("games_a_night", most=1), "once")
    found = explained(question(FOUR, usable, away, once))
    assert [one.rules for one in found.reasons] == [("Ash is away",)]
    assert [one.says for one in found.cures] == [
        "Let go of one rule: Ash cannot play on Mondays."
    ]


def test_a_season_that_has_a_plan_is_given_no_reason() -> None:
    assert explained(question(FOUR, slots((0, 7), (EARLY, MIDDLE)))) == Impossible(reasons=())


def two_fields() -> TimetableProblem:
    return question(FOUR, slots((0, 7), (EARLY, MIDDLE, LATE)), rule("games_a_night", most=1))


def test_nights_kept_for_rain_are_spread_and_rounded_up() -> None:
    problem = question(FOUR, slots(range(10), (EARLY,)))
    assert with_spare(problem, 0).spare == frozenset()
    assert with_spare(problem, 11).spare == {night(2), night(7)}


def test_as_many_pools_fit_as_there_are_slots_for() -> None:
    """Twelve slots, four games: a pool of four teams that play once each takes two more."""
    assert more_pools(two_fields(), teams=4, games_each=1, rain=0, workers=1) == 4
    assert not can_be(with_pools(two_fields(), 5, 4, 1))


def test_what_helps_is_told_with_what_a_plan_costs_then_the_best_first() -> None:
    dear = named(rule("absent", "Ash", cost=9, weekdays=("monday",)), "dislike")
    strict = named(rule("absent", "Ash", weekdays=("tuesday",)), "Ash on Tuesdays")
    problem = question(FOUR[:1], slots((0, 1), (EARLY,), ("F1",)), dear, strict)
    found = helps(problem, budget=Budget(work=1.0), workers=1)
    assert [(one.says, one.total) for one in found] == [
        ("Ash gives up: Ash cannot play on Tuesdays.", 0),
        ("Play one night more, such as Sunday 17 January.", 0),
    ]
