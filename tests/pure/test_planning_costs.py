"""What a plan costs by its wishes: each as often as it is missed, and no more than it could be.

The kinds and their meaning are common practice, no source.
"""

import pytest

from cases.four_games import APART, FOUR, PLACES, asked
from cases.tiny_season import EARLY, LATE, MIDDLE, at, pairing, plan, question, rule, slots
from wholeball.league.fixture import Seeded
from wholeball.planning.answer import Line
from wholeball.planning.check import check
from wholeball.planning.problem import Start


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
