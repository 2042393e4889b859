"""Where nobody wrote a minute down, none is told: not in words, not in the picture."""

from xml.etree import ElementTree as ET

import pytest
from hypothesis import given

from cases.paper_cards import LEAGUE, PLAY_OFF, cards, events_of, ordinary
from cases.told_games import eights, event, told
from wholeball.game.event import Event, Moment
from wholeball.game.happenings import Amended, Cautioned, Goal, PeriodEnded, PeriodStarted
from wholeball.game.paper import PaperCard, PaperGoal
from wholeball.game.paper_entries import told as entries_of
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.reports.game_happened import happened
from wholeball.reports.game_told import ToldGame
from wholeball.reports.game_words import game_words, off
from wholeball.reports.timeline import described, timeline
from wholeball.reports.timeline_svg import timeline_svg

TO = "\N{EN DASH}"
SVG = "{http://www.w3.org/2000/svg}"
START = event("s", 1, 0, PeriodStarted(kick_off="home"))
TIMES_OUT = {"comes_off": "for_minutes", "minutes": 5, "may_be_replaced": False}


def _of(card: PaperCard, rules: GameRules = LEAGUE) -> ToldGame:
    return told(events_of(entries_of(card, rules)), rules, home="Ash", away="Birch")


def _rows(game: ToldGame) -> list[tuple[str, str]]:
    return [(row.shown_when, str(row.says)) for row in happened(game)]


def _marks(game: ToldGame) -> list[str]:
    picture = ET.fromstring(timeline_svg(timeline(game)))  # noqa: S314 - our own drawing
    kinds = (str(one.get("class")) for one in picture.iter(f"{SVG}path"))
    return [kind.removeprefix("mark ") for kind in kinds if kind.startswith("mark ")]


def test_a_card_with_scores_by_half_tells_no_minute_and_no_running_score() -> None:
    assert _rows(_of(ordinary())) == [
        ("In the first half at 0:00, minute 1", "The period begins."),
        ("In the first half, minute not written down", "Goal for Birch."),
        ("In the first half, minute not written down", "Goal for Ash."),
        ("At the end of the first half", "The period ends."),
        ("In the second half at 0:00, minute 23", "The period begins."),
        ("In the second half, minute not written down", "Goal for Ash."),
        ("In the second half, minute not written down", "Goal for Birch."),
        ("In the second half, minute not written down", "Goal for Ash."),
        ("At the end of the second half", "The period ends."),
        ("At the end of the second half", f"Full time: the game ends 3{TO}2."),
        ("Minute not written down", "Yellow for number 7 of Ash."),
        ("Minute not written down", "Yellow for number 10 of Birch."),
        (
            "Minute not written down",
            "Number 7 of Ash is off after yellow until somebody comes on instead.",
        ),
        (
            "Minute not written down",
            "Number 10 of Birch is off after yellow until somebody comes on instead.",
        ),
    ]
    words = game_words(_of(ordinary()))
    assert words.periods == (("First half", f"1{TO}1"), ("Second half", f"2{TO}1"))
    assert [str(one) for one in words.cards] == [
        "Yellow, number 7 of Ash, minute not written down.",
        "Yellow, number 10 of Birch, minute not written down.",
    ]


def test_the_timeline_lists_them_off_the_line_with_hollow_marks() -> None:
    game = _of(ordinary())
    line = timeline(game)
    assert [stretch.items for stretch in line.stretches] == [(), ()]
    assert _marks(game) == [*["loose_goal"] * 5, "yellow", "yellow"]
    assert described(line) == (
        "First half: minute not written down, Birch: Goal; minute not written down, Ash: Goal; "
        f"22:00 played, 1{TO}1. Second half: minute not written down, Ash: Goal; minute not "
        "written down, Birch: Goal; minute not written down, Ash: Goal; 22:00 played, "
        f"3{TO}2. Yellow and red, minute not written down: Ash, Yellow 7; Birch, Yellow 10. It "
        f"ended at full time: 3{TO}2."
    )


def test_a_goal_with_a_minute_has_no_running_score_beside_one_without() -> None:
    goals = (PaperGoal(side="home", period=1, minute=12, number=9),)
    both = PaperCard(periods=(Score(1, 1), Score(0, 0)), goals=goals)
    alone = PaperCard(periods=(Score(1, 0), Score(0, 0)), goals=goals)
    assert _rows(_of(both))[1:3] == [
        ("In the first half at 11:00, minute 12", "Goal by number 9 of Ash."),
        ("In the first half, minute not written down", "Goal for Birch."),
    ]
    assert _rows(_of(alone))[1] == (
        "In the first half at 11:00, minute 12",
        f"Goal by number 9 of Ash: 1{TO}0.",
    )
    assert [item.label for item in timeline(_of(both)).stretches[0].items] == ["12' Goal 9"]


def test_the_half_after_one_without_minutes_has_its_running_score_again() -> None:
    goals = (PaperGoal(side="home", period=2, minute=1, number=9),)
    game = _of(PaperCard(periods=(Score(0, 1), Score(1, 0)), goals=goals))
    assert _rows(game)[3] == (
        "In the second half at 0:00, minute 23",
        "The period begins.",
    )
    assert _rows(game)[4] == (
        "In the second half at 0:01, minute 23",
        f"Goal by number 9 of Ash: 1{TO}1.",
    )


def test_a_scorer_and_an_own_goal_without_a_minute_are_named() -> None:
    goals = (
        PaperGoal(side="home", period=1, number=9),
        PaperGoal(side="home", period=1, number=4, own=True),
    )
    game = _of(PaperCard(periods=(Score(2, 0), Score(0, 0)), goals=goals))
    when = "In the first half, minute not written down"
    assert sorted(_rows(game)[1:3]) == [
        (when, "Goal by number 9 of Ash."),
        (when, "Own goal by number 4 of Birch."),
    ]


def test_a_mercy_rule_by_goals_without_a_minute_ends_the_game_about_then() -> None:
    card = PaperCard(periods=(Score(5, 0), Score(4, 0)), ended="mercy", minutes_left=6)
    game = _of(card)
    assert [str(one) for one in game_words(game).stands][1] == (
        "It ended by the mercy rule, in the second half, about minute 39: mercy, Mercy rule."
    )
    assert _rows(game)[-1] == (
        "In the second half, about minute 39",
        "The mercy rule ends the game: Ash leads by 9 goals with about 6 minutes left.",
    )


def test_a_mercy_rule_that_comes_true_by_time_after_them_is_told_to_the_second() -> None:
    events = [
        START,
        *(event(f"g{n}", 1, 60 * n, Goal(side="home", timed=False)) for n in range(1, 10)),
        event("e", 1, 1320, PeriodEnded()),
        event("s2", 2, 0, PeriodStarted()),
        event("e2", 2, 1000, PeriodEnded()),
    ]
    assert [str(one) for one in game_words(told(events)).stands][1] == (
        "It ended by the mercy rule, in the second half with 8:00 left, minute 37: "
        "H 10.1, Mercy rule."
    )


def test_a_first_goal_of_overtime_without_a_minute_ends_it_at_an_unknown_one() -> None:
    card = PaperCard(periods=(Score(1, 1), Score(0, 0)), overtime=(Score(1, 0),))
    assert [str(one) for one in game_words(_of(card, PLAY_OFF)).stands][1] == (
        "It ended with the first goal of overtime, in overtime, minute not written down: "
        "overtime, Overtime."
    )


def test_a_time_penalty_from_an_unknown_minute_tells_no_moment_of_its_end() -> None:
    rules = eights(cards={"cautioned": TIMES_OUT})
    off_at = event("y", 1, 600, Cautioned(side="home", number=7, timed=False))
    game = told([START, off_at], rules)
    assert [str(one) for one in game_words(game).off] == [
        "Number 7 of Salt and Static is off after yellow, until the time is over."
    ]
    back = told([START, off_at, event("e", 1, 1320, PeriodEnded())], rules)
    says = "Number 7 of Salt and Static has been off for 5 minutes and may come on again."
    assert ("Minute not written down", says) in _rows(back)


@pytest.mark.parametrize(("clock", "counts"), [(62, False), (63, True)])
def test_goals_two_seconds_apart_are_asked_about_only_where_both_have_a_clock(
    clock: int,
    counts: bool,  # noqa: FBT001
) -> None:
    def asked(*, timed: bool) -> bool:
        goals: list[Event] = [
            event("a", 1, 60, Goal(side="home")),
            event("b", 1, clock, Goal(side="home", timed=timed)),
        ]
        return bool(told([START, *goals]).state.questions)

    assert asked(timed=True) is not counts
    assert asked(timed=False) is False


def test_a_clock_that_is_amended_is_a_minute_that_is_known() -> None:
    goal = event("g", 1, 440, Goal(side="home", timed=False))
    amended = event("a", 1, 500, Amended(target="g", key="clock", value=125))
    assert _rows(told([START, goal, amended]))[1] == (
        "In the first half with 19:55 left, minute 3",
        f"Goal by a player of Salt and Static without a number: 1{TO}0.",
    )
    moved = event("a", 1, 500, Amended(target="g", key="period", value=2))
    [line] = told([START, goal, moved]).state.goals
    assert (line.at, line.timed) == (Moment(2, 440), False)


def test_who_is_off_is_left_out_once_the_game_is_over_and_kept_for_programs() -> None:
    game = _of(ordinary())
    assert game_words(game).off == ()
    assert [str(one) for one in off(game)] == [
        "Number 7 of Ash is off after yellow, until somebody comes on instead.",
        "Number 10 of Birch is off after yellow, until somebody comes on instead.",
    ]


@given(cards())
def test_of_any_card_what_has_no_minute_is_told_and_drawn_without_one(card: PaperCard) -> None:
    game = _of(card, PLAY_OFF)
    state = game.state
    goals = [goal for goal in state.goals if not goal.timed]
    shown = [one for one in state.cards if not one.timed]
    rows = [row for row in happened(game) if row.known != "moment"]
    scored = [row for row in rows if "oal " in str(row.says) and not row.ref]
    assert len(scored) == len(goals)
    assert [row for row in scored if not row.when.endswith("minute not written down")] == []
    assert [row for row in scored if TO in str(row.says)] == []
    assert sum(str(row.says).startswith(("Yellow", "Red")) for row in rows) == len(
        [one for one in shown if not one.derived]
    )
    picture = timeline(game)
    drawn = [*(item for one in picture.stretches for item in one.loose), *picture.loose]
    assert len(drawn) == len(goals) + len(shown)
    assert {item.minute for item in drawn} <= {""}
