"""Two offences at once: each ruled alone, then one choice, on every pair of distinct rulings.

Source: IFAB Laws of the Game, Law 5.3 (the more serious offence, by sanction and restart, when
more than one happens at the same time); equal offences of both sides from memory.
"""

from collections.abc import Mapping
from typing import Final

import pytest

from cases.rulebooks import rulebook
from wholeball.rulings.bind import bind
from wholeball.rulings.cases import cases
from wholeball.rulings.graph import compile_rules
from wholeball.rulings.packed import pack
from wholeball.rulings.ruling import Ruling
from wholeball.rulings.spaces import GAME, TOGETHER_SPACE
from wholeball.rulings.together import at_once

BOOK: Final = rulebook("laws-2025-26")
RULES: Final = bind(TOGETHER_SPACE, BOOK)
CHOICE: Final = pack(compile_rules(RULES), RULES)
MIRROR: Final = {"one": "other", "other": "one", "dropped_ball": "dropped_ball"}


def ruling(shown: str, restart: str) -> Ruling:
    return Ruling(answers={"shown": shown, "restart": restart}, articles=())


def chosen(
    one: Ruling, other: Ruling, *, same_side: bool, same_person: bool
) -> Mapping[str, str]:
    situation = at_once(one, other, same_side=same_side, same_person=same_person)
    found = CHOICE.ruling(situation.facts)
    assert found is not None
    return found.answers


def test_each_pair_of_rulings_is_chosen_between_and_in_whichever_order() -> None:
    kinds = {
        (answers["shown"], answers["restart"])
        for answers in (dict(case.answers) for case in cases(bind(GAME, BOOK)))
    }
    for first in kinds:
        for second in kinds:
            one, other = ruling(*first), ruling(*second)
            there = chosen(one, other, same_side=False, same_person=False)["restart_for"]
            back = chosen(other, one, same_side=False, same_person=False)["restart_for"]
            assert MIRROR[there] == back


@pytest.mark.parametrize(
    ("first", "second", "same_side", "restart_for"),
    [
        (("caution", "indirect_free_kick"), ("none", "penalty_kick"), False, "one"),
        (("none", "indirect_free_kick"), ("none", "direct_free_kick"), False, "other"),
        (("none", "direct_free_kick"), ("none", "direct_free_kick"), False, "dropped_ball"),
        (("none", "direct_free_kick"), ("none", "direct_free_kick"), True, "one"),
        (("none", "play_on"), ("none", "indirect_free_kick"), True, "other"),
    ],
)
def test_the_graver_offence_decides_the_restart(
    first: tuple[str, str], second: tuple[str, str], *, same_side: bool, restart_for: str
) -> None:
    answers = chosen(ruling(*first), ruling(*second), same_side=same_side, same_person=False)
    assert answers == {"restart_for": restart_for, "shown_for": "each"}


@pytest.mark.parametrize(
    ("first", "second", "shown_for"),
    [
        ("caution", "caution", "second_caution"),
        ("caution", "none", "each"),
        ("send_off", "caution", "each"),
    ],
)
def test_two_yellows_at_once_are_the_second_as_well(
    first: str, second: str, shown_for: str
) -> None:
    one, other = ruling(first, "direct_free_kick"), ruling(second, "direct_free_kick")
    assert chosen(one, other, same_side=True, same_person=True)["shown_for"] == shown_for
