from dataclasses import asdict, fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.units import NONE, Tenths, tenths
from wholeball.pitch.areas import Side, corners, turned
from wholeball.pitch.distances import (
    corner_distance,
    is_wall,
    may_stand,
    may_stand_at_corner,
    may_stand_at_dropped_ball,
    may_stand_at_kick_off,
    may_stand_at_penalty,
    may_stand_at_throw_in,
    may_stand_by_wall,
)
from wholeball.pitch.example import laws_in_metres, laws_in_yards
from wholeball.pitch.kept_away import Distances
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import at
from wholeball.reports.field_of_play import field_plan
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.load import load

PLAN = laws_in_yards()
YARD = 9_144
OWN, OPPONENTS = Side.OWN, Side.OPPONENTS


def test_an_opponent_may_stand_10_yards_away_and_no_nearer() -> None:
    ball = at(0, 40 * YARD)
    assert may_stand(at(0, 30 * YARD), ball, PLAN, defends=OWN)
    assert not may_stand(at(0, 30 * YARD + 1), ball, PLAN, defends=OWN)


def test_8_yards_from_the_ball_they_may_stand_on_their_goal_line_between_the_posts() -> None:
    ball = at(0, 8 * YARD)
    post = PLAN.goal_width // 2
    assert may_stand(at(0, 0), ball, PLAN, defends=OWN)
    assert may_stand(at(post, PLAN.line_width), ball, PLAN, defends=OWN)
    assert not may_stand(at(post + 1, 0), ball, PLAN, defends=OWN)
    assert not may_stand(at(0, PLAN.line_width + 1), ball, PLAN, defends=OWN)
    assert not may_stand(at(0, 0), ball, PLAN, defends=OPPONENTS)


def test_a_house_distance_of_5_yards_counts_instead_of_10() -> None:
    house = with_distance(free_kick=tenths(5, "yd"))
    ball = at(0, 40 * YARD)
    assert may_stand(at(0, 35 * YARD), ball, house, defends=OWN)
    assert not may_stand(at(0, 35 * YARD + 1), ball, house, defends=OWN)


def test_at_kick_off_opponents_keep_10_yards_and_their_own_half() -> None:
    assert may_stand_at_kick_off(at(0, 65 * YARD), PLAN, defends=OPPONENTS)
    assert not may_stand_at_kick_off(at(0, 65 * YARD - 1), PLAN, defends=OPPONENTS)
    assert not may_stand_at_kick_off(at(0, 40 * YARD), PLAN, defends=OPPONENTS)


def test_the_halfway_line_belongs_to_both_halves_at_kick_off() -> None:
    far, line = PLAN.length // 2, PLAN.line_width // 2
    for side in Side:
        assert may_stand_at_kick_off(at(20 * YARD, far), PLAN, defends=side)
    assert may_stand_at_kick_off(at(20 * YARD, far + line), PLAN, defends=OWN)
    assert not may_stand_at_kick_off(at(20 * YARD, far + line + 1), PLAN, defends=OWN)


def test_at_a_corner_10_yards_from_the_arc_are_11_from_the_corner() -> None:
    assert corner_distance(PLAN) == 11 * YARD
    corner = corners(PLAN, OPPONENTS)[0]
    assert may_stand_at_corner(at(corner.x, corner.y - 11 * YARD), corner, PLAN)
    assert not may_stand_at_corner(at(corner.x, corner.y - 11 * YARD + 1), corner, PLAN)


def test_at_a_penalty_players_stand_outside_area_and_arc() -> None:
    assert may_stand_at_penalty(at(0, 22 * YARD), PLAN, end=OWN)
    assert not may_stand_at_penalty(at(0, 22 * YARD - 1), PLAN, end=OWN)
    assert may_stand_at_penalty(at(15 * YARD, 18 * YARD + 1), PLAN, end=OWN)
    assert not may_stand_at_penalty(at(15 * YARD, 18 * YARD), PLAN, end=OWN)


def test_at_a_penalty_players_stand_behind_the_mark_and_on_the_field() -> None:
    wide = 23 * YARD
    assert may_stand_at_penalty(at(wide, 12 * YARD + 1), PLAN, end=OWN)
    assert not may_stand_at_penalty(at(wide, 12 * YARD), PLAN, end=OWN)
    assert may_stand_at_penalty(at(35 * YARD, 20 * YARD), PLAN, end=OWN)
    assert not may_stand_at_penalty(at(35 * YARD + 1, 20 * YARD), PLAN, end=OWN)


def test_at_a_throw_in_opponents_keep_2_yards_and_at_a_dropped_ball_all_keep_4_and_a_half() -> (
    None
):
    """IFAB Laws of the Game, Laws 15.1 and 8.2."""
    line = at(-PLAN.width // 2, 40 * YARD)
    assert may_stand_at_throw_in(at(line.x + 2 * YARD, line.y), line, PLAN)
    assert not may_stand_at_throw_in(at(line.x + 2 * YARD - 1, line.y), line, PLAN)
    ball = at(0, 40 * YARD)
    assert may_stand_at_dropped_ball(at(9 * YARD // 2, ball.y), ball, PLAN)
    assert not may_stand_at_dropped_ball(at(9 * YARD // 2 - 1, ball.y), ball, PLAN)


@pytest.mark.parametrize("name", [field.name for field in fields(Distances)])
def test_each_restart_goes_by_its_own_distance_alone(name: str) -> None:
    house = with_distance(**{name: NONE})
    corner, ball = corners(PLAN, OPPONENTS)[0], at(0, 40 * YARD)
    freed = {
        "free_kick": may_stand(ball, ball, house, defends=OWN),
        "kick_off": may_stand_at_kick_off(at(0, 55 * YARD), house, defends=OWN),
        "corner": may_stand_at_corner(at(corner.x, corner.y - YARD), corner, house),
        "penalty": may_stand_at_penalty(at(0, 18 * YARD + 1), house, end=OWN),
        "throw_in": may_stand_at_throw_in(ball, ball, house),
        "dropped_ball": may_stand_at_dropped_ball(ball, ball, house),
    }
    assert [restart for restart, is_freed in freed.items() if is_freed] == [name]


def test_a_plan_has_the_distance_of_each_restart_from_its_rulebook() -> None:
    """IFAB Laws of the Game, Laws 8.1, 8.2, 13.2, 14.1, 15.1 and 17.1."""
    laws = edition(NEWEST)
    assert field_plan(laws).distances in (laws_in_metres().distances, PLAN.distances)
    text = f'base = "{NEWEST}"\nname = "House"\nsource = "the house"\n'
    yards = {"kick_off": 5, "free_kick": 6, "penalty": 7, "throw_in": 3, "corner": 4}
    text += "".join(f'{key}.distance = "{size} yd"\n' for key, size in yards.items())
    house = load(text.encode(), file="rulebook.toml").rulebook
    kept = asdict(field_plan(house).distances)
    assert {key: kept[key] for key in yards} == {
        key: tenths(size, "yd") for key, size in yards.items()
    }


def test_without_an_arc_the_distance_of_a_penalty_counts_from_the_mark() -> None:
    house = replace(with_distance(penalty=tenths(8, "yd")), penalty_arc_radius=NONE)
    assert may_stand_at_penalty(at(0, 20 * YARD), house, end=OWN)
    assert not may_stand_at_penalty(at(0, 20 * YARD - 1), house, end=OWN)


@pytest.mark.parametrize(("defenders", "wall"), [(0, False), (2, False), (3, True), (4, True)])
def test_a_wall_is_three_or_more(defenders: int, *, wall: bool) -> None:
    line_up = [at(each * 5_000, 50_000) for each in range(defenders)]
    assert is_wall(line_up) is wall
    assert may_stand_by_wall(at(0, 50_000), line_up, distance=tenths(1, "yd")) is not wall


def test_an_attacker_may_stand_one_yard_from_the_wall_and_no_nearer() -> None:
    wall = [at(0, 50_000), at(5_000, 50_000), at(10_000, 50_000)]
    yard = tenths(1, "yd")
    assert may_stand_by_wall(at(10_000 + YARD, 50_000), wall, distance=yard)
    assert not may_stand_by_wall(at(10_000 + YARD - 1, 50_000), wall, distance=yard)


def with_distance(**distances: Tenths) -> FieldPlan:
    return replace(PLAN, distances=replace(PLAN.distances, **distances))


@given(st.integers(-330_000, 330_000), st.integers(-9_000, 1_015_000), st.sampled_from(Side))
def test_turning_the_field_moves_nobody(x: int, y: int, end: Side) -> None:
    player, ball = at(x, y), at(3 * YARD, 9 * YARD)
    other = turned(player, PLAN)
    opposite = OPPONENTS if end is OWN else OWN
    assert may_stand_at_penalty(player, PLAN, end=end) == may_stand_at_penalty(
        other, PLAN, end=opposite
    )
    assert may_stand(player, ball, PLAN, defends=end) == may_stand(
        other, turned(ball, PLAN), PLAN, defends=opposite
    )
    assert may_stand_at_kick_off(player, PLAN, defends=end) == may_stand_at_kick_off(
        other, PLAN, defends=opposite
    )
