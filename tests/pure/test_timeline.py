"""The timeline of a game shows and tells the same, and none of its words lie on each other."""

import re
from dataclasses import replace
from itertools import combinations
from typing import NamedTuple
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.conformance import Case, cases
from cases.told_games import by_mercy, crowded, eights, event, told, with_kicks
from wholeball.game.event import Event
from wholeball.game.happenings import Cautioned, Goal, HoldBegan, KickTaken, PeriodStarted
from wholeball.game.rules import game_rules
from wholeball.reports.field_frame import text_width
from wholeball.reports.game_told import ToldGame
from wholeball.reports.game_words import game_words
from wholeball.reports.timeline import described, timeline
from wholeball.reports.timeline_marks import TEXT
from wholeball.reports.timeline_svg import timeline_svg

SVG = "{http://www.w3.org/2000/svg}"
TO = "\N{EN DASH}"
KICKS = eights("play_off", ties={"play_off": "kicks"})


class Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float
    text: str


def _drawn(game: ToldGame) -> ET.Element:
    return ET.fromstring(timeline_svg(timeline(game)))  # noqa: S314 - our own drawing


def _boxes(picture: ET.Element) -> list[Box]:
    """Return the box of every text, rather too large than too small."""
    boxes = []
    for one in picture.iter(f"{SVG}text"):
        text, x, y = str(one.text), float(one.get("x", "")), float(one.get("y", ""))
        width = text_width(text, size=TEXT)
        left = x - {"start": 0, "middle": width / 2, "end": width}[one.get("text-anchor", "")]
        boxes.append(Box(left, y - TEXT * 0.8, left + width, y + TEXT * 0.25, text))
    return boxes


def _overlaps(boxes: list[Box]) -> list[tuple[str, str]]:
    return [
        (one.text, two.text)
        for one, two in combinations(boxes, 2)
        if one.left < two.right
        and two.left < one.right
        and one.top < two.bottom
        and two.top < one.bottom
    ]


def _marks(picture: ET.Element) -> list[str]:
    kinds = (str(one.get("class")) for one in picture.iter(f"{SVG}path"))
    return [kind.removeprefix("mark ") for kind in kinds if kind.startswith("mark ")]


def test_twelve_goals_within_three_minutes_have_words_that_do_not_overlap() -> None:
    picture = _drawn(told(crowded()))
    boxes = _boxes(picture)
    assert len(boxes) == 2 + 1 + 12 + 5 + 1 + 1
    assert _overlaps(boxes) == []
    assert all(box.left >= 0 and box.right <= 390 for box in boxes)


def test_the_picture_has_a_title_and_tells_all_that_it_shows() -> None:
    picture = _drawn(told(by_mercy()))
    assert picture.findtext(f"{SVG}title") == "Timeline, Salt and Static v Ninth Floor"
    desc = str(picture.findtext(f"{SVG}desc"))
    assert desc.endswith(
        f"Second half: minute 37, Salt and Static: Goal 11, 9{TO}0; minute 37, Ninth Floor: "
        f"Goal not counted; 14:10 played, 9{TO}0. It ended by the mercy rule: 9{TO}0."
    )
    assert desc.count("Goal") == len(told(by_mercy()).state.goals) == 10


@pytest.mark.parametrize("events", [crowded(), by_mercy()])
def test_every_label_of_an_item_is_told_in_the_description(events: list[Event]) -> None:
    game = told(events)
    line = timeline(game)
    shown = [box.text for box in _boxes(_drawn(game))]
    for stretch in line.stretches:
        for item in stretch.items:
            assert item.label in shown
            assert item.text in described(line)


def test_yellow_and_red_differ_in_outline_and_not_in_colour_alone() -> None:
    picture = _drawn(told(crowded()))
    outlines = {
        str(one.get("class")): "".join(filter(str.isalpha, str(one.get("d"))))
        for one in picture.iter(f"{SVG}path")
        if str(one.get("class")).startswith("mark ")
    }
    assert outlines["mark yellow"] == "MhvhZ"
    assert outlines["mark red"] == "MhlvhZ"
    assert len(set(outlines.values())) == len(outlines)


def test_a_period_that_mercy_ended_is_dashed_where_it_was_not_played() -> None:
    rests = [one for one in _drawn(told(by_mercy())) if one.get("class") == "rest"]
    axes = [one for one in _drawn(told(by_mercy())) if one.get("class") == "axis"]
    assert [str(one.get("stroke-dasharray")) for one in rests] == ["2 4"]
    assert len(axes) == 2


def test_time_is_to_scale_a_minute_is_ten_units() -> None:
    [first, second] = (
        str(one.get("d")) for one in _drawn(told(by_mercy())) if one.get("class") == "axis"
    )
    heights = [
        float(d.split("V")[1]) - float(d.split(" ")[1].split("V")[0]) for d in (first, second)
    ]
    assert heights == pytest.approx([220, 141.67], abs=0.01)


def test_kicks_are_a_row_of_hits_and_misses_for_each_side() -> None:
    picture = _drawn(told(with_kicks(), KICKS))
    assert _marks(picture) == ["goal", "goal", "miss", "goal", "miss", "goal", "miss", "miss"]
    assert str(picture.findtext(f"{SVG}desc")).endswith(
        "Kicks from the mark, Salt and Static: 1 scores, 3 scores, 5 does not score, 7 scores. "
        "Kicks from the mark, Ninth Floor: 2 does not score, 4 scores, 6 does not score, "
        f"8 does not score. It ended with kicks from the mark: 0{TO}0, 3{TO}1 on kicks."
    )
    assert _overlaps(_boxes(picture)) == []


def test_forty_kicks_go_on_in_further_rows() -> None:
    kicks = [
        event(
            f"k{at}",
            9,
            at,
            KickTaken(side="home" if at % 2 else "away", number=at, scored=True),
        )
        for at in range(1, 41)
    ]
    picture = _drawn(told([*with_kicks()[:4], *kicks], KICKS))
    boxes = _boxes(picture)
    assert len(_marks(picture)) == 40
    assert _overlaps(boxes) == []
    assert all(box.right <= 390 for box in boxes)


def test_a_game_of_which_nothing_is_recorded_says_so() -> None:
    picture = _drawn(told([]))
    assert picture.findtext(f"{SVG}desc") == "Nothing is recorded yet."


@pytest.mark.parametrize("name", ["W" * 40, "فريق الفانوس", "<b>&", "😀", "A b " * 20])
def test_a_name_is_cut_to_its_half_and_whole_in_the_title(name: str) -> None:
    picture = _drawn(told(crowded(), home=name, away=name))
    assert picture.findtext(f"{SVG}title") == f"Timeline, {name} v {name}"
    assert _overlaps(_boxes(picture)) == []


moments = st.integers(1, 1500)
sides = st.sampled_from(["home", "away"])
things = st.one_of(
    st.builds(Goal, side=sides, number=st.none() | st.integers(0, 99), own=st.booleans()),
    st.builds(Cautioned, side=sides, number=st.none() | st.integers(0, 99)),
    st.builds(HoldBegan, why=st.sampled_from(["thunder", "field"])),
)


@settings(max_examples=60)
@given(st.lists(st.tuples(moments, things), max_size=25))
def test_whatever_happens_no_words_overlap_and_every_goal_is_drawn(
    listed: list[tuple[int, Goal | Cautioned | HoldBegan]],
) -> None:
    happened = [event(f"x{at}", 1, clock, what) for at, (clock, what) in enumerate(listed)]
    game = told([event("s", 1, 0, PeriodStarted()), *happened])
    picture = _drawn(game)
    assert _overlaps(_boxes(picture)) == []
    marks = _marks(picture)
    assert marks.count("goal") == sum(game.state.score)
    assert marks.count("goal") + marks.count("no_goal") == len(game.state.goals)


@pytest.mark.parametrize("case", cases(), ids=str)
def test_every_conformance_case_can_be_told_and_drawn(case: Case) -> None:
    rules = game_rules(case.book, case.stage)
    game = told(case.events, rules)
    if case.until is not None:
        game = replace(game, state=game.state.at(case.until))
    words = game_words(game)
    named = [
        row for row in words.happened if re.match(r"(Own g|G)oal (by|for) ", str(row.says))
    ]
    assert len(named) == len(game.state.goals)
    follows = [row for row in words.happened if row.ref]
    assert len(follows) == len(game.state.statements)
    said = [
        str(one) for one in (*words.stands, words.counts_as, *(row.says for row in follows))
    ]
    assert [one for one in said if "a side" in one.lower() and "whose" not in one] == []
    picture = _drawn(game)
    assert _overlaps(_boxes(picture)) == []
    marks = _marks(picture)
    assert marks.count("goal") + marks.count("loose_goal") >= sum(game.state.score)
