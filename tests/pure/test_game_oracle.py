"""The fold of a game against a second, naive one, written apart from it."""

from collections.abc import Iterable
from random import Random
from typing import Any, Final

import pytest

from cases.conformance import Case, cases
from cases.random_games import RULEBOOKS, game_at_random
from oracles.naive_fold import naive_fold
from wholeball.game.event import Event, Moment
from wholeball.game.play import play
from wholeball.game.rules import GameRules, game_rules
from wholeball.league.fixture import Stage
from wholeball.rulebook.book import Rulebook

LOGS: Final = 20_000
STAGES: Final[tuple[Stage, ...]] = ("league", "play_off")
ODD: Final = (0.0, 0.3, 1.0)
WAYS: Final[list[tuple[Rulebook, Stage, float, GameRules]]] = [
    (book, stage, odd, game_rules(book, stage))
    for odd in ODD
    for stage in STAGES
    for book in RULEBOOKS
]
START: Final = Moment(0, 0)
LEFT_OUT: Final = frozenset(
    ("forfeit", "default", "broken_off", "resumed", "got_ready", "amend", "answer")
)
"""Kinds that the naive fold leaves out, so that it can be read at one go."""


def is_known(events: Iterable[Event]) -> bool:
    return not any(one.what.type in LEFT_OUT for one in events)


def folded(events: Iterable[Event], rules: GameRules) -> dict[str, Any]:
    """Return the parts that the naive fold knows, as it writes them."""
    state = play(events, rules)
    kicks, ending = state.kicks, state.ending
    return {
        "score": list(state.score),
        "played": list(state.played),
        "by_period": [list(score) for score in state.by_period],
        "kicks": kicks
        and {
            "scored": list(kicks.scored),
            "taken": list(kicks.taken),
            "winner": kicks.winner,
        },
        "ending": ending and {"how": ending.how, "at": list(ending.at)},
        "result": state.result and list(state.result),
        "winner": state.winner,
        "reds": {(one.side, one.number) for one in state.cards if one.colour == "red"},
    }


def unlike(case: Case) -> list[tuple[Any, Any]]:
    """Return what a case names and the naive fold comes to, where the two differ."""
    found = naive_fold(case.events, case.book, case.stage, case.until or START)
    named = {name: case.end[name] for name in case.end if name in found}
    pairs = [shared(wanted, found[name]) for name, wanted in named.items()]
    return [(wanted, said) for wanted, said in [*pairs, *reds(case, found)] if wanted != said]


def reds(case: Case, found: dict[str, Any]) -> list[tuple[Any, Any]]:
    """Return pairs of whom a case names as sent off, and who is shown red, as far as it says."""
    shown = [*case.end.get("cards", []), *case.among.get("cards", [])]
    named = {one["number"] for one in shown if one.get("colour") == "red" and "number" in one}
    named |= {one["number"] for one in case.end.get("away", []) if one.get("why") == "sent_off"}
    said = {number for _, number in found["reds"]}
    pairs: list[tuple[Any, Any]] = [(named, said & named)]
    if any(one["code"] == "second_caution" for one in case.among.get("statements", [])):
        pairs.append((True, bool(said)))
    if "second_caution" in case.absent:
        whats: list[Any] = [one.what for one in case.events]
        written = [what for what in whats if what.type == "sending_off"]
        pairs.append(({(what.side, what.number) for what in written}, found["reds"]))
    return pairs


def shared(wanted: Any, found: Any) -> tuple[Any, Any]:
    """Leave of two records the keys that both have."""
    if not isinstance(wanted, dict) or not isinstance(found, dict):
        return wanted, found
    both = [name for name in wanted if name in found]
    return {name: wanted[name] for name in both}, {name: found[name] for name in both}


@pytest.mark.parametrize("case", [case for case in cases() if is_known(case.events)], ids=str)
def test_the_naive_fold_comes_to_what_was_written_down(case: Case) -> None:
    assert unlike(case) == []


def test_both_folds_come_to_the_same_of_twenty_thousand_games_at_random() -> None:
    apart = []
    for seed in range(LOGS):
        book, stage, odd, rules = WAYS[seed % len(WAYS)]
        game = game_at_random(Random(seed), odd=odd)
        events = [one for one in game if is_known([one])]
        if folded(events, rules) != naive_fold(events, book, stage, START):
            apart.append(seed)
    assert apart == []
