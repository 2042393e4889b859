"""The picture of a scene is whole, says all that it shows, and lays nothing on another."""

from itertools import combinations
from typing import Final
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.scenes import PRESETS, Set, book_of, one_of_each, the_thirty
from wholeball.pitch.areas import Side, turned
from wholeball.pitch.shapes import Point
from wholeball.reports.ruling_words import ruling_words
from wholeball.reports.scene_labels import Rect, Room
from wholeball.reports.scene_layout import PAGE, Layout, layout
from wholeball.reports.scene_svg import scene_svg
from wholeball.reports.scene_words import attacks
from wholeball.rulings.spaces import GAME

SVG: Final = "{http://www.w3.org/2000/svg}"
BOOKS: Final = (*PRESETS, "laws-2025-26")


def laid(one: Set) -> Layout:
    return layout(one.scene, one.situation, one.ruling, "yd")


def drawn(one: Set) -> ET.Element:
    return ET.fromstring(scene_svg(one.scene, one.situation, one.ruling, "yd"))  # noqa: S314


@pytest.mark.parametrize("book", BOOKS)
def test_no_label_lies_on_a_label_a_figure_the_ball_or_the_place(book: str) -> None:
    for one in the_thirty(book_of(book)):
        out = laid(one)
        things = [
            *((figure.label or figure.role, put.rect) for figure, put in out.figures),
            *((card, put.rect) for card, put in out.cards),
            ("ball", out.ball.rect),
            *([("place", out.place.rect)] if out.place else []),
        ]
        labels = [(" ".join(label.lines), label.rect) for label in out.labels]
        onto = [
            (first[0], second[0])
            for first in labels
            for second in things
            if first[1].overlaps(second[1])
        ]
        onto += [
            (first[0], second[0])
            for first, second in combinations(labels, 2)
            if first[1].overlaps(second[1])
        ]
        assert (one.name, onto) == (one.name, [])


@pytest.mark.parametrize("book", BOOKS)
def test_every_label_is_whole_in_the_picture(book: str) -> None:
    for one in the_thirty(book_of(book)):
        out = laid(one)
        inside = Rect(0, 0, PAGE, out.height)
        outside = [label.lines for label in out.labels if not label.rect.is_within(inside)]
        assert (one.name, outside) == (one.name, [])


def test_every_kind_of_ruling_can_be_drawn() -> None:
    for one in one_of_each(book_of("eight")):
        assert drawn(one).tag == f"{SVG}svg"


def test_the_title_is_the_ruling_and_the_desc_has_the_words_of_every_fact() -> None:
    for one in the_thirty(book_of("laws-2025-26")):
        picture = drawn(one)
        words = ruling_words(one.ruling, one.situation.facts, book_of("laws-2025-26"))
        assert picture.findtext(f"{SVG}title") == " ".join((*words.decision, words.shown))
        desc = picture.findtext(f"{SVG}desc") or ""
        told = [
            GAME.fact(name).values[value].capitalize()
            for name, value in one.situation.facts.items()
        ]
        missing = [words for words in told if words not in desc]
        assert (one.name, missing) == (one.name, [])


def test_the_ring_of_the_restart_is_drawn_at_its_place() -> None:
    """The picture's own numbers, turned back into a place on the field by hand."""
    for one in the_thirty(book_of("laws-2025-26")):
        scene = one.scene
        restart = scene.restart
        rings = [
            (float(ring.get("cx", "")), float(ring.get("cy", "")))
            for ring in drawn(one).iter(f"{SVG}circle")
            if ring.get("class") == "place"
        ]
        if restart is None or not isinstance(restart.place, Point):
            assert rings == []
            continue
        tenths = (scene.view.right - scene.view.left) / PAGE
        (x, y), point = rings[0], restart.place
        far: int = scene.view.far
        if scene.top is Side.OWN:
            point, far = turned(point, scene.plan), scene.plan.length - scene.view.near
        assert abs(scene.view.left + x * tenths - point.x) <= tenths * 0.006
        assert abs(far - y * tenths - point.y) <= tenths * 0.006


def test_sides_are_told_by_shape_as_often_as_there_are_players() -> None:
    for one in the_thirty(book_of("laws-2025-26")):
        shapes = [
            (path.get("class") or "").removeprefix("figure ")
            for path in drawn(one).iter(f"{SVG}path")
            if (path.get("class") or "").startswith("figure ")
        ]
        kinds = [
            "diamond"
            if figure.role == "other"
            else "triangle"
            if figure.team is None
            else "disc"
            if attacks(figure.team, one.scene)
            else "square"
            for figure in one.scene.figures
        ]
        assert (one.name, shapes) == (one.name, kinds)


def test_arrows_are_numbered_in_order_and_the_whistle_comes_last() -> None:
    for one in the_thirty(book_of("laws-2025-26")):
        labels = laid(one).labels
        numbers = [label.lines[0] for label in labels if label.kind == "order"]
        count = len(one.scene.arrows)
        assert numbers == [f"{number}" for number in range(1, count + 1)]
        whistles = [label.lines[0] for label in labels if "whistle" in label.lines[0]]
        assert whistles == ([f"{count + 1} whistle"] if one.scene.whistle else [])


def test_the_same_scene_is_the_same_picture() -> None:
    book = book_of("eight")
    first = [scene_svg(one.scene, one.situation, one.ruling, "m") for one in the_thirty(book)]
    again = [scene_svg(one.scene, one.situation, one.ruling, "m") for one in the_thirty(book)]
    assert first == again


@given(
    st.lists(
        st.tuples(st.floats(10, 380), st.floats(10, 280), st.integers(1, 16)),
        min_size=1,
        max_size=9,
    )
)
def test_labels_never_overlap_wherever_they_are_asked_for(
    asked: list[tuple[float, float, int]],
) -> None:
    room = Room(Rect(0, 0, 390, 300))
    rects = [room.label(("w" * letters,), x, y, 10) for x, y, letters in asked]
    assert not any(one.overlaps(other) for one, other in combinations(rects, 2))
    assert all(rect.is_within(room.inside) for rect in rects)
