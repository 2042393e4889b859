"""What a plan breaks, kind by kind: the last plan that holds and the first that does not.

The kinds and their meaning are common practice, no source.
"""

from dataclasses import replace
from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.tiny_season import (
    EARLY,
    LATE,
    MIDDLE,
    at,
    night,
    pairing,
    plan,
    question,
    rule,
    slots,
)
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, Seeded
from wholeball.planning.answer import Broken, Line, Report
from wholeball.planning.check import check
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import Lock, Placement, Start, TimetableProblem
from wholeball.planning.rule import Rule

FOUR = (
    pairing("1", "Ash", "Birch"),
    pairing("2", "Cedar", "Dogwood"),
    pairing("3", "Ash", "Cedar", 2),
    pairing("4", "Birch", "Dogwood", 2),
)
PLACES = slots((0, 1, 2, 7, 8), (EARLY, MIDDLE, LATE))
APART = {
    "1": at(0, EARLY),
    "2": at(0, MIDDLE),
    "3": at(7, EARLY),
    "4": at(7, MIDDLE),
}
PASS = Report(broken=(), lines=())


def asked(*rules: Rule) -> TimetableProblem:
    return question(FOUR, PLACES, *rules)


def found(one: Rule, places: dict[str, tuple[Start, str]]) -> list[tuple[tuple[str, ...], str]]:
    """Return the games and the words of everything that breaks one rule."""
    report = check(asked(one), plan(places))
    if one.strength == "must":
        assert report.lines == ()
        return [(broken.games, broken.says) for broken in report.broken]
    assert report.broken == ()
    return [((line.about,), line.says) for line in report.lines]


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
        rule("length", minutes=60),
        APART,
        APART,
        [],
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


@pytest.mark.parametrize(
    ("final", "says"),
    [
        (None, ["Ash has games in 1 week, and could in 2."]),
        (at(28, EARLY), ["Ash has games in 1 week, and could in 2."]),
        (at(21, EARLY), ["Ash has games in 1 week, and could in 2."]),
        (at(14, EARLY), ["Ash has no game in week 2."]),
        (at(7, EARLY), []),
    ],
)
def test_weeks_that_a_team_cannot_fill_and_those_of_the_play_offs_cost_nothing(
    final: tuple[Start, str] | None, says: list[str]
) -> None:
    """Two games of one week in a season of four: two weeks are idle in any plan."""
    last = (
        () if final is None else (pairing("F", Seeded(seed=1), Seeded(seed=2), 9, pool=None),)
    )
    places = {"1": at(0, EARLY), "3": at(0, LATE), "2": at(2, EARLY), "4": at(2, LATE)}
    usable = slots((0, 2, 7, 14, 21, 28), (EARLY, LATE))
    problem = question((*FOUR, *last), usable, rule("idle_week", "Ash", cost=4))
    plan_ = places if final is None else {**places, "F": final}
    report = check(problem, plan(plan_))
    assert [one.says for one in report.lines] == says
    assert report.total == 4 * len(says)


def test_who_plays_as_often_as_there_are_games_for_is_never_idle_at_a_cost() -> None:
    usable = slots((0, 7, 14, 21), (EARLY, MIDDLE, LATE))
    problem = question(FOUR, usable, rule("idle_week", "Ash", cost=4))
    late = {**APART, "3": at(21, EARLY)}
    assert check(problem, plan(late)).total == 0


def test_a_slot_of_fifty_nine_minutes_is_too_short_and_one_of_sixty_is_not() -> None:
    cup = (*FOUR[:3], pairing("4", "Birch", "Dogwood", 2, pool=None))
    for minutes, broken in (
        (60, []),
        (61, ["Game 4 has 60 minutes on F1 on Monday 11 January at 19:00; it needs 61."]),
    ):
        problem = question(cup, PLACES, rule("length", games="play_off", minutes=minutes))
        assert [one.says for one in check(problem, plan(APART)).broken] == broken


def test_opened_nights_and_starts_cost_once_each() -> None:
    rules = (rule("open_night", cost=3), rule("open_start", cost=2))
    places = plan({**APART, "2": at(0, EARLY, "F2")})
    report = check(asked(*rules), places)
    assert report.total == 2 * 3 + 3 * 2
    assert report.lines[0] == Line(
        rule="open_night",
        about="2027-01-04",
        times=1,
        cost=3,
        says="Monday 4 January is opened.",
    )
    assert [one.about for one in report.lines[2:]] == [
        "2027-01-04 18:00",
        "2027-01-11 18:00",
        "2027-01-11 19:00",
    ]


def test_a_wish_costs_as_often_as_it_is_missed() -> None:
    three = (*FOUR[:3], pairing("4", "Ash", "Dogwood", 2))
    places = plan({**APART, "2": at(8, EARLY), "3": at(0, MIDDLE, "F2"), "4": at(0, LATE)})
    problem = question(three, PLACES, rule("games_a_night", "Ash", cost=10, most=1))
    assert check(problem, places).lines == (
        Line(
            rule="games_a_night",
            about="Ash",
            times=2,
            cost=20,
            says="Ash has 3 games on Monday 4 January; 1 at most.",
        ),
    )


def test_teams_meet_again_after_the_days_they_are_to_have() -> None:
    again = (*FOUR[:3], pairing("4", "Birch", "Ash", 2))
    for days, broken in (
        (7, []),
        (8, ["Ash and Birch meet again after 7 days; 8 at least."]),
    ):
        problem = question(again, PLACES, rule("gap_between_repeats", days=days))
        assert [one.says for one in check(problem, plan(APART)).broken] == broken


CUP = (
    *FOUR[:2],
    pairing("P1", From(game=GameId("1")), From(game=GameId("2")), 2, pool=None),
)


def test_a_game_comes_after_those_that_bring_its_sides() -> None:
    places = {name: APART[name] for name in ("1", "2")}
    rest = rule("after", minutes=90)
    for start, broken in (
        (at(1, EARLY), []),
        (at(0, LATE, "F2"), ["P1 starts 60 minutes after 2; 90 at least."]),
    ):
        problem = question(CUP, PLACES, rest)
        assert [
            one.says for one in check(problem, plan({**places, "P1": start})).broken
        ] == broken
    early = check(
        question(CUP, PLACES, rest), plan({**APART, "1": at(2, EARLY), "P1": at(1, EARLY)})
    )
    assert "Game P1 starts before game 1, whose outcome it needs." in [
        one.says for one in early.broken
    ]


def test_a_must_holds_for_every_team_that_may_come_to_play_and_a_wish_for_none_of_them() -> (
    None
):
    places = plan({"1": APART["1"], "2": APART["2"], "P1": at(1, EARLY)})
    must = rule("absent", "Dogwood", weekdays=("tuesday",))
    wish = rule("absent", "Dogwood", cost=3, weekdays=("tuesday",))
    assert [one.games for one in check(question(CUP, PLACES, must), places).broken] == [("P1",)]
    assert check(question(CUP, PLACES, wish), places) == PASS


SEMIS = (
    *FOUR,
    pairing("S1", Seeded(seed=1), Seeded(seed=4), 3, pool=None),
    pairing("S2", Seeded(seed=2), Seeded(seed=3), 3, pool=None),
    pairing(
        "P3",
        From(game=GameId("S1"), takes="loser"),
        From(game=GameId("S2"), takes="loser"),
        4,
        pool=None,
    ),
    pairing("P4", From(game=GameId("S1")), From(game=GameId("S2")), 4, pool=None),
)


def test_a_seed_plays_one_semi_final_and_then_the_final_or_the_game_for_third() -> None:
    problem = question(SEMIS, PLACES)
    assert {frozenset(map(str, one)) for one in problem.ways_of(TeamId("Ash"))} == {
        frozenset(("1", "3", semi, last)) for semi in ("S1", "S2") for last in ("P3", "P4")
    }


def test_both_semi_finals_may_be_on_one_night_but_not_with_what_follows() -> None:
    one = rule("games_a_night", "Ash", most=1)
    problem = question(SEMIS, PLACES, one)
    semis = {"S1": at(1, EARLY), "S2": at(1, EARLY, "F2")}
    last = {"P3": at(2, EARLY), "P4": at(2, EARLY, "F2")}
    assert check(problem, plan({**APART, **semis, **last})) == PASS
    last["P4"] = at(1, LATE, "F2")
    assert [one.says for one in check(problem, plan({**APART, **semis, **last})).broken] == [
        "Ash has 2 games on Tuesday 5 January; 1 at most."
    ] * 2


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_has_a_sentence_and_refuses_what_is_none_of_its_parameters(
    kind: str,
) -> None:
    entry = KINDS[kind]
    with pytest.raises(ValueError, match="surprise"):
        entry.params.model_validate({"surprise": 1})


def test_a_rule_of_an_unknown_kind_is_an_error() -> None:
    with pytest.raises(KeyError, match="moonlight"):
        check(asked(rule("moonlight")), plan(APART))


@given(st.permutations(sorted(APART)), st.sampled_from([one for one, _, _, _ in CASES]))
def test_the_order_of_placements_never_matters(order: list[str], one: Rule) -> None:
    places = plan(BOTH_AT_ONCE)
    shuffled: list[Placement] = sorted(places, key=lambda each: order.index(each.game))
    assert check(asked(one), shuffled) == check(asked(one), places)


def test_times_are_read_as_people_write_them() -> None:
    params = KINDS["block"].read(
        rule("block", block="B", weekday="monday", opens="18:00", closes="21:30")
    )
    assert (params.opens, params.closes) == (time(18), time(21, 30))


NAMES = ("Ash", "Birch", "Cedar", "Dogwood")


@given(st.permutations(NAMES), st.sampled_from(CASES))
def test_teams_by_other_names_break_the_same_rules_as_often(
    names: list[str], case: tuple[Rule, object, object, object]
) -> None:
    """Exchange the names of all teams, in games and rule alike; the rest stays."""
    one, new = case[0], dict(zip(NAMES, names, strict=True))
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
    rules = [case[0] for case in CASES]
    places = plan({game: at(5, time(3), "F9") for game in APART})
    report = check(asked(*rules), places)
    assert {one.rule for one in report.broken} >= {"places", "capacity", "at once"}


def test_an_empty_plan_lacks_every_game_and_nothing_else() -> None:
    rules = [case[0] for case in CASES if case[0].kind != "even_byes"]
    report = check(asked(*rules), ())
    assert [one.says for one in report.broken] == [
        f"Game {n} has no place." for n in range(1, 5)
    ]
