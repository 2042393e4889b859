"""Editions differ where the Laws say they do, and the questions find every ruling.

Source of the differences: IFAB, Laws of the Game 2025/26, summary of changes (Laws 3.7, 8.2, 11
and 12.2), and Circular 31 of 2 June 2025 (Law 14).
"""

from collections.abc import Iterator
from functools import cache
from typing import Final

import pytest

from cases.rulebooks import rulebook
from wholeball.rulebook.book import values
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
    """Return which change of the Laws a difference belongs to, by what both situations say."""
    shared, asked = difference.shared, difference.one.keys() | difference.other.keys()
    if shared.get("hands") == "too_long":
        return "the goalkeeper's hold"
    if shared.get("effect") == "leaving":
        return "a touch of a ball that leaves the field"
    if shared.get("ahead") in ("at_first", "at_last"):
        return f"offside at a goalkeeper's throw, {shared['ahead']}"
    if difference.other.get("meant") == "no" and difference.other["in_net"] == "yes":
        return "a second touch at a penalty kick that was not meant"
    if {"ball_at", "last_at", "would"} <= asked and shared["ball_at"] == "elsewhere":
        return "who gets a dropped ball, and where"
    return f"unexpected: {shared}"


def told(difference: Difference) -> str:
    """Return what an official says otherwise: the parts that are no hand-over to a later one."""
    before, after = (
        " ".join(pair[at] for part, pair in difference.parts.items() if part in SAID)
        for at in (0, 1)
    )
    return f"{before} > {after}"


SAID: Final = ("goal", "restart", "spot", "taker", "resumed", "kick", "shown")
_SPOTS: Final = ("offence", "goal_area_line_nearest", "goal_area")
CHANGES: Final = {
    "the goalkeeper's hold": {
        f"indirect_free_kick {spot} > corner_kick corner_nearest" for spot in _SPOTS[:2]
    },
    "a touch of a ball that leaves the field": {
        f"{kick} {shown} > {'indirect_free_kick interference' if at else 'indirect_free_kick'} "
        "none"
        for kick, at in (("direct_free_kick", ""), ("penalty_kick penalty_mark", "spot"))
        for shown in ("caution", "second_caution")
    },
    "offside at a goalkeeper's throw, at_first": {
        *(f"indirect_free_kick {spot} B > play_on none none" for spot in _SPOTS),
        *(f"no indirect_free_kick {spot} > A kick_off centre_mark" for spot in _SPOTS),
    },
    "offside at a goalkeeper's throw, at_last": {
        *(f"play_on none none > indirect_free_kick {spot} B" for spot in _SPOTS),
        *(f"A kick_off centre_mark > no indirect_free_kick {spot}" for spot in _SPOTS),
    },
    "a second touch at a penalty kick that was not meant": {
        f"none indirect_free_kick offence B{before} > no retake penalty_mark A{after}"
        for before, after in (
            ("", ""),
            (" period_over", " as_ruled"),
            (" not_scored", " retake"),
        )
    },
    "who gets a dropped ball, and where": {
        "last_touch > ball_when_stopped",
        "last_touch toucher > ball_when_stopped other",
        "goalkeeper_in_penalty_area > ball_when_stopped",
        "goalkeeper_in_penalty_area toucher > ball_when_stopped other",
        "goalkeeper_in_penalty_area other > ball_when_stopped toucher",
    },
}
"""Each change of the Laws from 2024/25 to 2025/26, and all that is ruled otherwise by it."""
CLARIFIED: Final = "a second touch at a penalty kick that was not meant"
"""The change that Circular 31 of 2 June 2025 made between the editions."""
OF_KEYS: Final = {
    "goalkeeper.hold.then": "the goalkeeper's hold",
    "extra_persons.touch_leaving_ball": "a touch of a ball that leaves the field",
    "offside.goalkeeper_throw": "offside at a goalkeeper's throw, at_first",
    "penalty.double_touch.goal": CLARIFIED,
    "dropped_ball.to": "who gets a dropped ball, and where",
    "dropped_ball.spot": "who gets a dropped ball, and where",
}
"""Values that differ between the editions and the change that each belongs to."""
OUTSIDE: Final = {
    "goalkeeper.hold.seconds": "whether it was too long is asked, not for how many seconds",
    "goalkeeper.hold.shown_seconds": "a signal that goes before an offence rules nothing",
    "captain.only_captain_approaches": "a guideline that a competition may use; what is not "
    "allowed then is dissent",
}
"""Values that differ and lie outside the facts, each with the reason."""


def changes(one: str, other: str) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for difference in between(one, other):
        found.setdefault(change(difference), set()).add(told(difference))
    return found


def test_2025_26_differs_from_2024_25_in_these_and_nothing_else() -> None:
    assert changes("laws-2024-25", "laws-2025-26") == CHANGES


def test_the_clarification_between_them_made_one_of_the_changes() -> None:
    clarified = {CLARIFIED: CHANGES[CLARIFIED]}
    assert changes("laws-2024-25", "laws-2024-25-circular-31") == clarified
    later = {name: said for name, said in CHANGES.items() if name != CLARIFIED}
    assert changes("laws-2024-25-circular-31", "laws-2025-26") == later


def test_every_value_that_differs_is_ruled_or_lies_outside_the_facts() -> None:
    before, after = (dict(all_values(name)) for name in ("laws-2024-25", "laws-2025-26"))
    differing = {key for key, value in after.items() if before[key] != value}
    assert differing == OF_KEYS.keys() | OUTSIDE.keys()
    assert {*OF_KEYS.values(), "offside at a goalkeeper's throw, at_last"} == CHANGES.keys()


def all_values(name: str) -> Iterator[tuple[str, object]]:
    for path, article in rulebook(name).articles():
        yield from ((f"{path}.{key}", value) for key, value in values(article).items())


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
