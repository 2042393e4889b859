import math
from dataclasses import replace

import pytest

from wholeball.kernel.units import NONE, Tenths, tenths
from wholeball.pitch.areas import (
    Side,
    arc_ends,
    centre_circle,
    centre_mark,
    corner_quadrant,
    corners,
    field_box,
    goal_area,
    goal_mouth,
    penalty_arc,
    penalty_area,
    penalty_mark,
)
from wholeball.pitch.example import laws_in_metres, laws_in_yards
from wholeball.pitch.measures import (
    arc_angle,
    arc_half_chord,
    arc_length,
    corner_surface,
    scale,
    surface_per_player,
)
from wholeball.pitch.shapes import Box, at, is_in

METRES, YARDS = laws_in_metres(), laws_in_yards()
YARD = 9_144


def test_the_areas_of_the_laws_are_20_by_6_and_44_by_18_yards() -> None:
    assert goal_area(YARDS, Side.OWN) == Box(
        left=Tenths(-10 * YARD), right=Tenths(10 * YARD), near=NONE, far=Tenths(6 * YARD)
    )
    assert penalty_area(YARDS, Side.OPPONENTS) == Box(
        left=Tenths(-22 * YARD),
        right=Tenths(22 * YARD),
        near=Tenths(92 * YARD),
        far=Tenths(110 * YARD),
    )


def test_marks_lie_12_yards_from_each_goal_line_and_in_the_middle() -> None:
    assert penalty_mark(YARDS, Side.OWN) == at(0, 12 * YARD)
    assert penalty_mark(YARDS, Side.OPPONENTS) == at(0, 98 * YARD)
    assert centre_mark(YARDS) == at(0, 55 * YARD)


def test_a_line_belongs_to_the_area_it_bounds() -> None:
    area = penalty_area(METRES, Side.OWN)
    assert area is not None
    assert is_in(area, at(0, 165_000))
    assert not is_in(area, at(0, 165_001))
    assert is_in(area, at(201_600, 1))
    assert not is_in(area, at(201_601, 1))


def test_the_centre_circle_ends_with_its_line() -> None:
    circle = centre_circle(METRES)
    assert circle is not None
    assert is_in(circle, at(91_500, 525_000))
    assert not is_in(circle, at(91_501, 525_000))


def test_a_corner_area_is_a_quarter_of_a_disc_on_the_field() -> None:
    left, right = corners(METRES, Side.OPPONENTS)
    assert (left, right) == (at(-340_000, 1_050_000), at(340_000, 1_050_000))
    quadrant = corner_quadrant(METRES, right)
    assert quadrant is not None
    assert is_in(quadrant, at(330_000, 1_050_000))
    assert not is_in(quadrant, at(329_999, 1_050_000))
    assert not is_in(quadrant, at(340_001, 1_050_000))


def test_the_arc_lies_beyond_the_penalty_area_only() -> None:
    arc = penalty_arc(METRES, Side.OWN)
    assert arc is not None
    assert not is_in(arc, at(0, 165_000))
    assert is_in(arc, at(0, 165_001))
    assert is_in(arc, at(0, 201_500))
    assert not is_in(arc, at(0, 201_501))


def test_the_arc_meets_the_area_exactly_8_yards_from_the_middle() -> None:
    assert arc_ends(YARDS, Side.OWN) == (at(-8 * YARD, 18 * YARD), at(8 * YARD, 18 * YARD))
    assert arc_ends(YARDS, Side.OPPONENTS) == (
        at(-8 * YARD, 92 * YARD),
        at(8 * YARD, 92 * YARD),
    )


def test_in_metres_the_end_of_the_arc_is_rounded_towards_the_middle() -> None:
    assert arc_ends(METRES, Side.OWN) == (at(-73_124, 165_000), at(73_124, 165_000))
    assert arc_half_chord(METRES) == pytest.approx(73_124.89316)


def test_the_arc_of_the_laws_is_106_degrees_and_18_5_yards_long() -> None:
    assert math.degrees(arc_angle(YARDS)) == pytest.approx(106.260204708)
    assert arc_length(YARDS) / YARD == pytest.approx(18.54590436)


def test_a_corner_area_of_one_yard_is_0_66_square_metres() -> None:
    assert corner_surface(YARDS, "m") == pytest.approx(0.656692892910357)


def test_nine_on_75_by_50_yards_have_208_square_yards_a_player() -> None:
    nine = replace(YARDS, length=tenths(75, "yd"), width=tenths(50, "yd"))
    assert surface_per_player(YARDS, players=22, unit="yd") == 350
    assert float(surface_per_player(nine, players=18, unit="yd")) == pytest.approx(208.333333)
    assert [float(part) for part in scale(YARDS, nine)] == pytest.approx([0.6818182, 0.7142857])


def test_the_goal_mouth_is_the_goal_line_between_the_posts() -> None:
    assert goal_mouth(METRES, Side.OPPONENTS) == Box(
        left=Tenths(-36_600),
        right=Tenths(36_600),
        near=Tenths(1_048_800),
        far=Tenths(1_050_000),
    )


def test_a_field_without_markings_has_no_areas_marks_or_arcs() -> None:
    bare = replace(
        METRES,
        goal_area_depth=NONE,
        goal_area_side=NONE,
        penalty_area_depth=NONE,
        penalty_area_side=NONE,
        penalty_mark=NONE,
        penalty_arc_radius=NONE,
        centre_circle_radius=NONE,
        corner_radius=NONE,
    )
    assert goal_area(bare, Side.OWN) is None
    assert penalty_area(bare, Side.OWN) is None
    assert penalty_mark(bare, Side.OWN) is None
    assert penalty_arc(bare, Side.OWN) is None
    assert arc_ends(bare, Side.OWN) is None
    assert centre_circle(bare) is None
    assert corner_quadrant(bare, at(0, 0)) is None
    assert field_box(bare) == field_box(METRES)


def test_a_field_with_mark_and_area_may_still_have_no_arc() -> None:
    plain = replace(METRES, penalty_arc_radius=NONE)
    assert penalty_mark(plain, Side.OWN) == at(0, 110_000)
    assert penalty_arc(plain, Side.OWN) is None
    assert arc_ends(plain, Side.OWN) is None
