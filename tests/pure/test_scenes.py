"""Scenes show a situation as it was, by the rules of the field, and the same every time."""

from itertools import combinations

import pytest

from cases.scenes import BALL, PRESETS, Set, book_of, one_of_each, the_thirty
from wholeball.kernel.units import Tenths
from wholeball.pitch.areas import Side, goal_area, penalty_area, penalty_mark
from wholeball.pitch.distances import may_stand_at_penalty
from wholeball.pitch.shapes import Box, CornerQuadrant, Point, distance_squared, is_in
from wholeball.pitch.spots import Place, Spot, place
from wholeball.reports.field_of_play import field_plan
from wholeball.rulebook.editions import edition_keys
from wholeball.rulebook.load import load
from wholeball.rulings.bind import bind
from wholeball.rulings.ruling import Ruling, Situation
from wholeball.rulings.spaces import GAME, STAGES
from wholeball.training.answered import Answered, answered
from wholeball.training.compose import scene_of
from wholeball.training.scene import CloseUp, Figure, Scene
from wholeball.training.thirty import THIRTY

BOOKS = (*PRESETS, "laws-2025-26")


@pytest.fixture(scope="module")
def thirty() -> dict[str, Set]:
    return {one.name: one for one in the_thirty(book_of("laws-2025-26"))}


def team(scene: Scene, side: str, role: str = "player") -> list[Figure]:
    return [one for one in scene.figures if one.team == side and one.role == role]


def test_there_are_thirty_situations_with_names_of_their_own() -> None:
    assert len({told.name for told in THIRTY}) == len({told.title for told in THIRTY}) == 30


@pytest.mark.parametrize("book", [*PRESETS, *edition_keys()])
def test_the_thirty_lack_no_fact_that_any_preset_or_edition_asks(book: str) -> None:
    rules = bind(GAME, book_of(book))
    lacking = [
        told.name for told in THIRTY if not isinstance(answered(told.seen, rules), Answered)
    ]
    assert lacking == []


@pytest.mark.parametrize("book", BOOKS)
def test_no_two_people_stand_on_each_other_and_both_officials_are_there(book: str) -> None:
    for one in the_thirty(book_of(book)):
        scene = one.scene
        near = [
            (first.label or first.role, second.label or second.role)
            for first, second in combinations(scene.figures, 2)
            if distance_squared(first.at, second.at) < (2 * scene.body) ** 2
        ]
        roles = {figure.role for figure in scene.figures}
        assert (one.name, near, {"lead", "trail"} <= roles) == (one.name, [], True)


@pytest.mark.parametrize("book", BOOKS)
def test_nobody_stands_on_the_ball_or_on_the_place_of_the_restart(book: str) -> None:
    for one in the_thirty(book_of(book)):
        scene = one.scene
        places = [scene.ball.at]
        if scene.restart is not None and isinstance(scene.restart.place, Point):
            places.append(scene.restart.place)
        on = [
            figure.label or figure.role
            for figure in scene.figures
            for spot in places
            if distance_squared(figure.at, spot) < (1.2 * scene.body) ** 2
        ]
        assert (one.name, on) == (one.name, [])


@pytest.mark.parametrize("book", BOOKS)
def test_everybody_is_in_the_picture(book: str) -> None:
    for one in the_thirty(book_of(book)):
        outside = [
            figure for figure in one.scene.figures if not is_in(one.scene.view, figure.at)
        ]
        assert (one.name, outside) == (one.name, [])


def test_the_same_facts_in_another_order_make_the_same_scene(thirty: dict[str, Set]) -> None:
    plan = field_plan(book_of("laws-2025-26"))
    for one in thirty.values():
        turned_round = Situation(facts=dict(reversed(list(one.situation.facts.items()))))
        answers = Ruling(
            answers=dict(reversed(list(one.ruling.answers.items()))),
            articles=one.ruling.articles,
        )
        assert scene_of(turned_round, answers, plan, ball=BALL) == one.scene


@pytest.mark.parametrize("book", ["eight", "laws-2025-26"])
def test_every_kind_of_ruling_has_a_picture_and_its_restart_is_where_its_spot_says(
    book: str,
) -> None:
    laws = book_of(book)
    plan = field_plan(laws)
    drawn = set()
    for one in one_of_each(laws):
        restart = one.scene.restart
        drawn.add(one.ruling["spot"])
        if restart is None:
            assert one.ruling["spot"] == "none"
            continue
        assert restart.place == place(
            Spot(one.ruling["spot"]), restart.point, plan, end=restart.end
        )
        assert _is_at_the_right_end(one), (one.name, one.situation.facts)
        assert _is_in_its_zone(one), (one.name, one.situation.facts)
    assert drawn == STAGES[1].parts["spot"] - {"last_touch", "penalty_area_line_nearest"}


def _is_at_the_right_end(one: Set) -> bool:
    """A side takes its penalty and corner kicks at the other end, its goal kicks at its own."""
    restart, taker = one.scene.restart, one.ruling["taker"]
    if restart is None or taker not in ("A", "B"):
        return True
    middle = one.scene.plan.length // 2
    is_far = (_height(restart.place) > middle) == (taker == "A")
    match one.ruling["spot"]:
        case "penalty_mark" | "corner_nearest" | "goal_area_line_nearest":
            return is_far
        case "goal_area":
            return not is_far
        case _:
            return True


def _is_in_its_zone(one: Set) -> bool:
    """What happened lies in the zone and the goal area that the facts name, and in no other."""
    restart, facts, plan = one.scene.restart, one.situation.facts, one.scene.plan
    if restart is None:
        return True
    ends = {"own": goal_area(plan, Side.OWN), "opp": goal_area(plan, Side.OPPONENTS)}
    named = facts.get("goal_area")
    in_areas = {end for end, area in ends.items() if area and is_in(area, restart.point)}
    if named is not None and in_areas != {named} - {"neither"}:
        return False
    own = penalty_area(plan, Side.OWN)
    zone = facts.get("zone")
    if own is None or zone is None or facts["seen"] == "form" or "ball_at" in facts:
        return True
    return is_in(own, restart.point) == (zone == "own_area")


def _height(where: Place) -> int:
    match where:
        case Point():
            return where.y
        case Box():
            return where.near
        case CornerQuadrant():
            return where.disc.centre.y


def test_a_drop_where_it_was_touched_last_has_a_picture() -> None:
    one = next(
        one
        for one in one_of_each(book_of("laws-2024-25"))
        if one.ruling["spot"] == "last_touch" and one.situation.facts["seen"] == "stop"
    )
    assert one.scene.restart is not None
    assert one.scene.restart.place == one.scene.arrows[0].start


def test_a_house_that_kicks_from_the_penalty_area_line_has_its_place_drawn() -> None:
    house = b"""
base = "laws-2025-26"
name = "n"
source = "s"
goalkeeper.return_pass = { ref = "H 1", spot = "penalty_area_line", why = "w" }
"""
    book = load(house, file="house.toml").rulebook
    seen = next(told.seen for told in THIRTY if told.name == "passed_back")
    found = answered(seen, bind(GAME, book))
    assert isinstance(found, Answered)
    scene = scene_of(found.situation, found.ruling, field_plan(book), ball=BALL)
    area = penalty_area(scene.plan, Side.OWN)
    assert (found.ruling["spot"], area is not None) == ("penalty_area_line_nearest", True)
    assert scene.restart is not None
    assert isinstance(scene.restart.place, Point)
    assert area is not None
    assert scene.restart.place.y == area.far


@pytest.mark.parametrize("book", BOOKS)
def test_arrows_start_at_somebody_or_where_the_one_before_ended(book: str) -> None:
    for one in the_thirty(book_of(book)):
        scene, ends = one.scene, list[Point]()
        for arrow in scene.arrows:
            starts = [*ends, *(figure.at for figure in scene.figures)]
            nearest = min(distance_squared(arrow.start, start) for start in starts)
            assert nearest <= (2.5 * scene.body) ** 2, one.name
            ends.append(arrow.end)


def test_at_a_penalty_kick_the_goalkeeper_is_on_the_line_and_the_others_keep_out(
    thirty: dict[str, Set],
) -> None:
    for name in ("penalty_keeper", "penalty_attacker"):
        scene = thirty[name].scene
        keeper = team(scene, "B", "keeper")
        assert [one.at.y for one in keeper] == [scene.plan.length]
        others = [
            one
            for side in "AB"
            for one in team(scene, side)
            if one.label != "kicker"
            and not may_stand_at_penalty(one.at, scene.plan, end=Side.OPPONENTS)
        ]
        assert others == []
        assert scene.restart is not None
        assert scene.restart.place == penalty_mark(scene.plan, Side.OPPONENTS)


def test_only_the_goalkeeper_is_behind_a_receiver_who_is_offside(
    thirty: dict[str, Set],
) -> None:
    scene = thirty["offside_scored"].scene
    receiver = next(one for one in scene.figures if one.label == "receiver")
    behind = [
        one.role for one in scene.figures if one.team == "B" and one.at.y >= receiver.at.y
    ]
    assert behind == ["keeper"]
    assert scene.offside is not None
    assert receiver.at.y > scene.offside


def test_a_level_receiver_stands_on_the_line_of_the_second_last_opponent(
    thirty: dict[str, Set],
) -> None:
    scene = thirty["level_scored"].scene
    receiver = next(one for one in scene.figures if one.label == "receiver")
    assert receiver.at.y == scene.offside


def test_only_the_goalkeeper_is_left_where_an_obvious_chance_was_taken(
    thirty: dict[str, Set],
) -> None:
    one = thirty["last_defender"]
    assert one.scene.restart is not None
    offence = one.scene.restart.point
    left = [
        each.role for each in one.scene.figures if each.team == "A" and each.at.y < offence.y
    ]
    assert left == ["keeper"]
    area = penalty_area(one.scene.plan, Side.OWN)
    assert area is not None
    assert not is_in(area, offence)


def test_what_happens_in_an_area_is_drawn_in_it(thirty: dict[str, Set]) -> None:
    for name, area_of in (("tripped_in_area", penalty_area), ("passed_back", goal_area)):
        restart = thirty[name].scene.restart
        area = area_of(thirty[name].scene.plan, Side.OWN)
        assert restart is not None
        assert area is not None
        assert is_in(area, restart.point), name


def test_nobody_but_the_named_is_near_a_free_kick(thirty: dict[str, Set]) -> None:
    for name in ("wall", "quick_kick"):
        scene = thirty[name].scene
        assert scene.ring is not None
        near = [
            one.label
            for one in team(scene, "B")
            if distance_squared(one.at, scene.ring.centre) < scene.ring.radius**2
        ]
        assert near == (["too near"] if name == "quick_kick" else [])
        assert scene.ring.radius == scene.plan.distances.free_kick


def test_yellow_and_red_are_drawn_beside_the_offender(thirty: dict[str, Set]) -> None:
    shown = {
        name: [
            (one.label, one.card) for one in thirty[name].scene.figures if one.card != "none"
        ]
        for name in ("reckless_tackle", "last_defender", "tripped_in_area", "high_foot")
    }
    assert shown == {
        "reckless_tackle": [("offender", "yellow")],
        "last_defender": [("offender", "red")],
        "tripped_in_area": [("offender", "yellow")],
        "high_foot": [],
    }


def test_play_that_goes_on_and_a_ball_that_is_out_need_no_whistle(
    thirty: dict[str, Set],
) -> None:
    silent = {name for name, one in thirty.items() if one.scene.whistle is None}
    assert silent == {
        "on_the_line",
        "over_the_line",
        "over_the_touchline",
        "own_goal",
        "keeper_throws_far",
        "indirect_straight_in",
        "thrown_straight_in",
        "corner_straight_in",
        "level_scored",
        "advantage_played",
        "slide",
        "quick_kick",
    }


def test_a_ball_is_over_only_from_a_tenth_past_its_radius() -> None:
    touching = CloseUp(line="goal line", beyond=Tenths(1_114), radius=BALL)
    over = CloseUp(line="goal line", beyond=Tenths(1_115), radius=BALL)
    assert (touching.is_over, over.is_over) == (False, True)


def test_the_close_up_says_what_the_fact_says(thirty: dict[str, Set]) -> None:
    shown = {
        name: one.scene.close_up.is_over
        for name, one in thirty.items()
        if one.scene.close_up is not None
    }
    assert shown == {
        one.name: one.situation.facts["whole"] == "yes"
        for one in thirty.values()
        if one.situation.facts["seen"] == "ball_over"
    }


def test_a_corner_kick_that_goes_in_bends_round_the_goal_line(thirty: dict[str, Set]) -> None:
    arrow = thirty["corner_straight_in"].scene.arrows[0]
    assert arrow.via is not None
    assert arrow.via.y < thirty["corner_straight_in"].scene.plan.length
    assert arrow.end.y > thirty["corner_straight_in"].scene.plan.length
