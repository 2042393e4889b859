import re
from dataclasses import dataclass, fields, replace
from decimal import Decimal
from itertools import combinations
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.units import NONE, Tenths, Unit, tenths
from wholeball.pitch.example import laws_in_metres, laws_in_yards
from wholeball.pitch.kept_away import Distances
from wholeball.pitch.markings import markings
from wholeball.pitch.plan import FieldPlan
from wholeball.reports.field_frame import px
from wholeball.reports.field_svg import field_svg

SVG = "{http://www.w3.org/2000/svg}"
METRES, YARDS = laws_in_metres(), laws_in_yards()


def everywhere(kept: Tenths) -> Distances:
    """Return one distance for every restart."""
    return Distances(**dict.fromkeys((field.name for field in fields(Distances)), kept))


INDOOR = FieldPlan(
    length=tenths(40, "m"),
    width=tenths(20, "m"),
    line_width=tenths(8, "cm"),
    goal_width=tenths(3, "m"),
    goal_height=tenths(2, "m"),
    post_width=tenths(8, "cm"),
    penalty_area_depth=tenths(6, "m"),
    penalty_area_side=tenths(4, "m"),
    penalty_mark=tenths(6, "m"),
    centre_circle_radius=tenths(3, "m"),
    corner_radius=tenths(25, "cm"),
    distances=everywhere(tenths(5, "m")),
)
NINE = replace(
    YARDS,
    length=tenths(70, "yd"),
    width=tenths(45, "yd"),
    goal_width=tenths(Decimal("18.5"), "ft"),
    goal_height=tenths(Decimal("6.5"), "ft"),
    penalty_area_depth=tenths(14, "yd"),
    penalty_area_side=tenths(10, "yd"),
    penalty_mark=tenths(10, "yd"),
    penalty_arc_radius=tenths(8, "yd"),
    centre_circle_radius=tenths(8, "yd"),
    distances=everywhere(tenths(8, "yd")),
)
SHORT = replace(INDOOR, length=tenths(16, "m"), centre_circle_radius=tenths(2, "m"))
DRAWN: list[tuple[FieldPlan, Unit]] = [
    (METRES, "m"),
    (METRES, "yd"),
    (YARDS, "yd"),
    (NINE, "yd"),
    (INDOOR, "m"),
    (SHORT, "m"),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    text: str
    left: float
    right: float
    top: float
    bottom: float


def drawn(plan: FieldPlan, unit: Unit, *, labels: bool = True) -> ET.Element:
    return ET.fromstring(field_svg(plan, unit, labels=labels))  # noqa: S314 - our own text


def written(root: ET.Element) -> list[Written]:
    """Every level text with the room it takes, 0.55 em a letter and 1 em high."""
    size = float(root.attrib["font-size"])
    found = []
    for element in (each for each in root if each.tag == f"{SVG}text"):
        text, x = element.text or "", float(element.attrib["x"])
        wide = len(text) * size * 0.55
        left = x - {"start": 0, "middle": wide / 2, "end": wide}[element.attrib["text-anchor"]]
        base = float(element.attrib["y"])
        found.append(
            Written(
                text=text,
                left=left,
                right=left + wide,
                top=base - size * 0.8,
                bottom=base + size * 0.2,
            )
        )
    return found


def collide(one: Written, other: Written) -> bool:
    return (
        one.left < other.right
        and other.left < one.right
        and one.top < other.bottom
        and other.top < one.bottom
    )


@st.composite
def plans(draw: st.DrawFn) -> FieldPlan:
    """Fields of many shapes; whole halves, areas that fit, and markings left out at will."""

    def length(least: int, most: int) -> Tenths:
        return Tenths(2 * draw(st.integers(least // 2, max(least, most) // 2)))

    width = length(100_000, 1_000_000)
    long = length(120_000, 1_500_000)
    goal = length(10_000, width // 4)
    depth = draw(st.just(NONE) | st.just(length(10_000, long * 2 // 5)))
    side = length(10_000, (width - goal) // 2) if depth else NONE
    return FieldPlan(
        length=long,
        width=width,
        line_width=length(100, 1_200),
        goal_width=goal,
        goal_height=length(10_000, 30_000),
        post_width=length(100, 1_200),
        penalty_area_depth=depth,
        penalty_area_side=side,
        goal_area_depth=Tenths(depth // 3),
        goal_area_side=Tenths(side // 3),
        penalty_mark=draw(st.just(NONE) | st.just(length(10_000, long * 2 // 5))),
        centre_circle_radius=draw(st.just(NONE) | st.just(length(2, min(width, long) // 2))),
        corner_radius=draw(st.just(NONE) | st.just(length(2, 20_000))),
        distances=everywhere(length(10_000, 100_000)),
    )


def assert_labels_are_apart_and_inside(root: ET.Element) -> None:
    texts = written(root)
    assert [pair for pair in combinations(texts, 2) if collide(*pair)] == []
    left, top, wide, high = (float(number) for number in root.attrib["viewBox"].split())
    for each in texts:
        assert left <= each.left, each
        assert each.right <= left + wide, each
        assert top <= each.top, each
        assert each.bottom <= top + high, each


@pytest.mark.parametrize(("plan", "unit"), DRAWN)
def test_no_label_covers_another_or_leaves_the_picture(plan: FieldPlan, unit: Unit) -> None:
    assert_labels_are_apart_and_inside(drawn(plan, unit))


@given(plans(), st.sampled_from(["m", "yd", "ft"]))
def test_no_label_of_any_field_covers_another(plan: FieldPlan, unit: Unit) -> None:
    assert_labels_are_apart_and_inside(drawn(plan, unit))


def test_every_marking_of_the_laws_has_its_size() -> None:
    root = drawn(YARDS, "yd")
    texts = ["".join(each.itertext()) for each in root.iter(f"{SVG}text")]
    rows = list(zip(texts[0:-2:2], texts[1:-2:2], strict=True))
    assert rows == [
        ("6 yd", "goal area"),
        ("12 yd", "penalty mark"),
        ("18 yd", "penalty area"),
        ("10 yd", "penalty arc"),
        ("10 yd", "centre circle"),
        ("5 in", "lines"),
        ("1 yd", "corner arc"),
        ("8 ft", "goal height"),
        ("8 yd", "goal"),
        ("20 yd", "goal area"),
        ("44 yd", "penalty area"),
    ]
    assert texts[-2:] == ["110 yd", "70 yd"]


def test_a_marking_the_field_lacks_has_no_label() -> None:
    texts = ["".join(each.itertext()) for each in drawn(INDOOR, "m").iter(f"{SVG}text")]
    assert "goal area" not in texts
    assert "penalty arc" not in texts


@pytest.mark.parametrize(("plan", "unit"), DRAWN)
@pytest.mark.parametrize("labels", [True, False])
def test_title_and_description_say_in_words_all_that_is_drawn(
    plan: FieldPlan, unit: Unit, *, labels: bool
) -> None:
    root = drawn(plan, unit, labels=labels)
    assert root.attrib["role"] == "img"
    title, desc = list(root)[:2]
    assert (title.tag, desc.tag) == (f"{SVG}title", f"{SVG}desc")
    assert all(sentence in (desc.text or "") for sentence in markings(plan, unit))


def test_the_title_names_length_and_width() -> None:
    assert drawn(METRES, "m")[0].text == "Field of play, 105 m by 68 m"


def test_without_labels_there_is_no_text_and_no_accent() -> None:
    text = field_svg(METRES, "m", labels=False)
    assert "<text" not in text
    assert "#1f3bb3" not in text


@pytest.mark.parametrize(("plan", "unit"), DRAWN)
def test_the_picture_is_plain_shapes_without_script_style_or_outside_links(
    plan: FieldPlan, unit: Unit
) -> None:
    text = field_svg(plan, unit)
    tags = {element.tag.removeprefix(SVG) for element in ET.fromstring(text).iter()}  # noqa: S314 - our own text
    assert tags <= {"svg", "title", "desc", "path", "circle", "text", "g"}
    assert not re.search(r"style=|<style|<script|href|\bid=|\son\w+=|Gradient", text)


def test_the_field_is_drawn_to_scale() -> None:
    root = drawn(METRES, "m", labels=False)
    paths = [
        each.attrib["d"] for each in root.iter(f"{SVG}path") if each.get("class") == "pitch"
    ]
    sides = [re.findall(r"-?[\d.]+", each) for each in paths if each.endswith("Z")]
    sizes = [
        (float(right) - float(left), float(near) - float(far))
        for left, far, right, near, _ in sides
    ]
    pixels = sizes[0][0] / 68
    wanted = [(68, 105), (18.32, 5.5), (40.32, 16.5), (18.32, 5.5), (40.32, 16.5)]
    for (wide, high), (across, along) in zip(sizes, wanted, strict=True):
        assert (wide / pixels, high / pixels) == pytest.approx((across, along), abs=0.01)


def test_the_arcs_bulge_away_from_the_goal_and_out_of_the_corner() -> None:
    text = field_svg(METRES, "m", labels=False)
    flags = re.findall(r"A[\d.]+ [\d.]+ 0 (\d) (\d)", text)
    assert flags == [
        ("0", "1"),
        ("0", "0"),
        ("0", "1"),
        ("0", "0"),
        ("0", "1"),
        ("0", "0"),
    ]


def test_an_arc_round_a_mark_outside_the_area_is_the_larger_one() -> None:
    outside = replace(METRES, penalty_mark=tenths(20, "m"))
    assert " 0 1 1 " in field_svg(outside, "m", labels=False)


def test_drawing_twice_gives_the_same_bytes() -> None:
    assert field_svg(NINE, "yd") == field_svg(NINE, "yd")


@pytest.mark.parametrize(
    ("number", "text"), [(0.0, "0"), (-0.001, "0"), (10.0, "10"), (1.256, "1.26")]
)
def test_pixels_have_two_places_at_most(number: float, text: str) -> None:
    assert px(number) == text
