from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.units import NONE, Tenths
from wholeball.pitch.areas import (
    Side,
    corner_quadrant,
    corners,
    field_box,
    goal_area,
    penalty_area,
    turned,
)
from wholeball.pitch.example import laws_in_metres, laws_in_yards
from wholeball.pitch.shapes import Box, CornerQuadrant, Point, at, is_in
from wholeball.pitch.spots import Place, Spot, nearest_boundary, place

YARDS = laws_in_yards()
METRES = laws_in_metres()
YARD = 9_144
NO_GOAL_AREA = replace(YARDS, goal_area_depth=NONE, goal_area_side=NONE)
BARE = replace(
    NO_GOAL_AREA,
    penalty_area_depth=NONE,
    penalty_area_side=NONE,
    penalty_mark=NONE,
    penalty_arc_radius=NONE,
    corner_radius=NONE,
)
ANYWHERE = st.builds(at, st.integers(-400_000, 400_000), st.integers(-100_000, 1_150_000))


def yards(x: float, y: float) -> Point:
    return at(round(x * YARD), round(y * YARD))


def turned_place(where: Place) -> Place:
    match where:
        case Point():
            return turned(where, METRES)
        case Box():
            return Box(
                left=Tenths(-where.right),
                right=Tenths(-where.left),
                near=Tenths(METRES.length - where.far),
                far=Tenths(METRES.length - where.near),
            )
        case CornerQuadrant():
            return replace(
                where, disc=replace(where.disc, centre=turned(where.disc.centre, METRES))
            )


@pytest.mark.parametrize(
    ("offence", "spot"),
    [
        ((0, 0), (0, 6)),
        ((9, 2), (9, 6)),
        ((-10, 6), (-10, 6)),
        ((10.5, 3), (10.5, 3)),
        ((3, 6.5), (3, 6.5)),
    ],
)
@pytest.mark.parametrize("end", list(Side))
def test_an_indirect_kick_in_the_goal_area_moves_straight_up_to_its_line(
    offence: tuple[float, float], spot: tuple[float, float], end: Side
) -> None:
    there, wanted = yards(*offence), yards(*spot)
    if end is Side.OPPONENTS:
        there, wanted = turned(there, YARDS), turned(wanted, YARDS)
    assert place(Spot.GOAL_AREA_LINE_NEAREST, there, YARDS, end=end) == wanted


def test_the_other_sides_goal_area_moves_no_kick() -> None:
    there = yards(0, 2)
    assert place(Spot.GOAL_AREA_LINE_NEAREST, there, YARDS, end=Side.OPPONENTS) == there


def test_without_a_goal_area_the_kick_moves_to_the_line_of_the_penalty_area() -> None:
    spot = Spot.GOAL_AREA_LINE_NEAREST
    moved = place(spot, yards(5, 7), NO_GOAL_AREA, end=Side.OWN)
    assert moved == yards(5, 18)
    anywhere = place(Spot.GOAL_AREA, yards(5, 7), NO_GOAL_AREA, end=Side.OWN)
    assert anywhere == penalty_area(YARDS, Side.OWN)


@pytest.mark.parametrize("end", list(Side))
def test_marks_and_areas_are_those_of_the_end(end: Side) -> None:
    here = at(0, 0)
    own = end is Side.OWN
    assert place(Spot.CENTRE_MARK, here, YARDS, end=end) == yards(0, 55)
    assert place(Spot.PENALTY_MARK, here, YARDS, end=end) == yards(0, 12 if own else 98)
    assert place(Spot.GOAL_AREA, here, YARDS, end=end) == goal_area(YARDS, end)
    keeper = place(Spot.GOALKEEPER_IN_PENALTY_AREA, here, YARDS, end=end)
    assert keeper == penalty_area(YARDS, end)


@pytest.mark.parametrize(("x", "which"), [(-1, 0), (0, 1), (1, 1)])
def test_a_corner_is_taken_on_the_side_where_the_ball_went_out(x: int, which: int) -> None:
    for end in Side:
        corner = corners(YARDS, end)[which]
        quadrant = corner_quadrant(YARDS, corner)
        assert place(Spot.CORNER_NEAREST, at(x, -2_000), YARDS, end=end) == quadrant


def test_without_corner_arcs_a_corner_is_taken_from_the_corner() -> None:
    corner = corners(BARE, Side.OPPONENTS)[0]
    assert place(Spot.CORNER_NEAREST, at(-9, 0), BARE, end=Side.OPPONENTS) == corner


@pytest.mark.parametrize(("x", "side"), [(-36, -35), (-34, -35), (0, 35), (36, 35)])
def test_a_throw_in_is_taken_where_the_ball_left_the_touchline(x: float, side: float) -> None:
    assert place(Spot.WHERE_IT_LEFT, yards(x, 40), YARDS, end=Side.OWN) == yards(side, 40)


def test_a_throw_in_is_never_behind_the_goal_line() -> None:
    assert place(Spot.WHERE_IT_LEFT, yards(36, -1), YARDS, end=Side.OWN) == yards(35, 0)


WHERE_IT_WAS = (
    Spot.BALL_WHEN_STOPPED,
    Spot.INTERFERENCE,
    Spot.LAST_TOUCH,
    Spot.OFFENCE,
    Spot.OFFENCE_OR_NEAREST_BOUNDARY,
    Spot.SAME_PLACE,
    Spot.STRUCK,
)


@pytest.mark.parametrize("spot", WHERE_IT_WAS)
def test_on_the_field_the_place_is_kept_and_off_it_the_boundary_is_nearest(spot: Spot) -> None:
    assert place(spot, yards(35, 40), YARDS, end=Side.OWN) == yards(35, 40)
    assert place(spot, yards(36, 40), YARDS, end=Side.OWN) == yards(35, 40)
    assert place(spot, yards(-40, -3), YARDS, end=Side.OWN) == yards(-35, 0)


@pytest.mark.parametrize(
    ("point", "nearest"),
    [
        ((34, 40), (35, 40)),
        ((-34, 40), (-35, 40)),
        ((3, 5), (3, 0)),
        ((3, 100), (3, 110)),
        ((0, 35), (-35, 35)),
        ((36, 112), (35, 110)),
    ],
)
def test_the_nearest_boundary_is_found_from_inside_and_outside(
    point: tuple[float, float], nearest: tuple[float, float]
) -> None:
    found = place(Spot.NEAREST_BOUNDARY, yards(*point), YARDS, end=Side.OWN)
    assert found == yards(*nearest)
    assert nearest_boundary(yards(*point), YARDS) == found


@pytest.mark.parametrize(
    ("spot", "missing"),
    [
        (Spot.PENALTY_MARK, "penalty_mark"),
        (Spot.GOAL_AREA, "goal_area_depth"),
        (Spot.GOAL_AREA_LINE_NEAREST, "goal_area_depth"),
        (Spot.GOALKEEPER_IN_PENALTY_AREA, "penalty_area_depth"),
    ],
)
def test_a_spot_without_its_marking_names_the_size_to_give(spot: Spot, missing: str) -> None:
    with pytest.raises(WholeballError, match=f"Give {missing} a size") as refused:
        place(spot, at(0, 0), BARE, end=Side.OWN)
    assert refused.value.code == "no_marking"


@given(ANYWHERE, st.sampled_from(Spot), st.sampled_from(Side))
def test_every_spot_lies_on_the_field(point: Point, spot: Spot, end: Side) -> None:
    where = place(spot, point, METRES, end=end)
    box = field_box(METRES)
    match where:
        case Point():
            assert is_in(box, where)
        case Box():
            assert is_in(box, Point(x=where.left, y=where.near))
            assert is_in(box, Point(x=where.right, y=where.far))
        case CornerQuadrant():
            assert where.field == box


@given(ANYWHERE.filter(lambda point: point.x != 0), st.sampled_from(Spot))
def test_turning_the_field_turns_the_spot(point: Point, spot: Spot) -> None:
    box = field_box(METRES)
    sides = sorted((point.x - box.left, box.right - point.x, point.y, box.far - point.y))
    if spot is Spot.NEAREST_BOUNDARY and sides[0] == sides[1]:
        return
    here = place(spot, point, METRES, end=Side.OWN)
    there = place(spot, turned(point, METRES), METRES, end=Side.OPPONENTS)
    assert there == turned_place(here)
