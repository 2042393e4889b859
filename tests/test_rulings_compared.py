"""Editions differ where the Laws say they do, and the questions find every ruling.

Source of the differences: IFAB, Laws of the Game 2025/26, summary of changes (Laws 3.7, 8.2 and
12.2), and Circular 31 of 2 June 2025 (Law 14). Which contact counts when a goalkeeper throws
(Law 11) lies outside the facts: an offside position is asked for, not measured. That only the
captain approaches the referee changes no ruling.
"""

from functools import cache
from typing import Final

import pytest

from cases.rulebooks import rulebook
from wholeball.rulings.asking import cost, cost_in_order, entropy, fewest, questions
from wholeball.rulings.bind import bind
from wholeball.rulings.cases import cases
from wholeball.rulings.compare import Difference, compare
from wholeball.rulings.graph import compile_rules
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import GAME, PROVED


@cache
def between(one: str, other: str) -> list[Difference]:
    return list(compare(bind(GAME, rulebook(one)), bind(GAME, rulebook(other))))


def change(difference: Difference) -> str:
    """Return which change of the Laws a difference belongs to."""
    shared, parts = difference.shared, difference.parts
    if shared.get("hands") == "too_long":
        return "the goalkeeper's hold"
    if shared.get("effect") == "leaving":
        return "a touch of a ball that leaves the field"
    if difference.other.get("meant") == "no":
        return "a second touch at a penalty kick that was not meant"
    if {"ball_at", "last_at", "would"} & difference.one.keys() and set(parts) <= {
        "spot",
        "taker",
    }:
        return "who gets a dropped ball, and where"
    return f"unexpected: {shared} {parts}"


CHANGES: Final = {
    "the goalkeeper's hold",
    "a touch of a ball that leaves the field",
    "a second touch at a penalty kick that was not meant",
    "who gets a dropped ball, and where",
}


def test_2025_26_differs_from_2024_25_in_these_and_nothing_else() -> None:
    assert {change(one) for one in between("laws-2024-25", "laws-2025-26")} == CHANGES


def test_the_hold_went_from_an_indirect_free_kick_to_a_corner_kick() -> None:
    found = between("laws-2024-25", "laws-2025-26")
    held = {one.parts["restart"] for one in found if change(one) == "the goalkeeper's hold"}
    assert held == {("indirect_free_kick", "corner_kick")}


def test_an_edition_does_not_differ_from_itself() -> None:
    assert between("laws-2025-26", "laws-2025-26") == []


def test_editions_that_changed_nothing_kept_here_do_not_differ() -> None:
    assert between("laws-2016-17", "laws-2018-19") == []


def test_a_house_that_only_moves_a_number_rules_alike() -> None:
    assert between("laws-2025-26", "eleven") == []


@pytest.mark.parametrize("space", PROVED, ids=lambda space: space.name)
def test_the_questions_find_every_ruling_and_ask_no_more_than_a_fixed_order(
    space: Space,
) -> None:
    rules = bind(space, rulebook("laws-2025-26"))
    left = cases(rules)
    asked = questions(left)
    greedy, fixed = cost(asked, left), cost_in_order(compile_rules(rules), left)
    assert fewest(left) <= greedy.mean <= fixed.mean
    assert greedy.worst <= fixed.worst


def test_situations_that_are_ruled_alike_need_no_question() -> None:
    left = cases(bind(GAME, rulebook("laws-2025-26")))
    first = left[0]
    assert questions([first, first]) is None
    assert entropy([first]) == 0
