"""Rulings against a second, slow reader of the rulebook, written apart from the engine.

Every complete situation of five presets is held against it, and no difference is allowed. What
the Laws' facts and the booklets leave open was settled as the tests at the end say.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from operator import attrgetter
from pathlib import Path
from typing import Any, Final

import pytest

from oracles.slow_reader import PRESUMED, READERS, heard, read
from oracles.slow_reader_words import NotAskedError
from wholeball.rulebook import presets
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import load
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.ruling import Lacks, Situation, rule_by
from wholeball.rulings.spaces import GAME

NAMES: Final = ("eleven", "nine", "eight", "seven", "mixed")


IN_THE_GOAL: Final[Mapping[str, tuple[str, ...]]] = {
    "mouth": ("in",),
    "scored": ("yes",),
    "result": ("goal",),
    "in_net": ("yes",),
    "net": ("self", "mate", "own"),
    "effect": ("in_goal", "in_hampered", "in_free"),
    "flight": ("forward_in",),
}
"""Facts that say that the ball went into a goal."""


@cache
def book(name: str) -> Rulebook:
    """Return a preset."""
    file = Path(presets.__file__).parent / f"{name}.toml"
    return load(file.read_bytes(), file=file.name).rulebook


def grown(facts: dict[str, str], rules: Rules) -> Iterator[tuple[dict[str, str], Any]]:
    """Yield every complete situation that begins with these facts, and its ruling."""
    ruling = rule_by(Situation(facts=facts), rules)
    if not isinstance(ruling, Lacks):
        yield facts, dict(ruling.answers)
        return
    for value in ruling.values:
        yield from grown(facts | {ruling.fact.name: value}, rules)


@cache
def paths(name: str) -> tuple[tuple[dict[str, str], Any], ...]:
    """Return every complete situation of a preset, and its ruling."""
    return tuple(grown({}, bind(GAME, book(name))))


def difference(facts: dict[str, str], answers: Any, rules: Rulebook) -> dict[str, Any]:
    """Return what the reader and the engine say where they differ: reader first."""
    told = heard(answers)
    try:
        mine = read(facts, rules)
    except NotAskedError as lacking:
        return {"lacks": str(lacking)}
    return {
        name: (mine.get(name), told.get(name))
        for name in sorted({*mine, *told})
        if mine.get(name) != told.get(name)
    }


def test_every_kind_of_situation_is_read() -> None:
    assert {facts["seen"] for name in NAMES for facts, _ in paths(name)} == set(READERS)


@pytest.mark.parametrize("name", NAMES)
def test_the_rulebook_holds_the_values_that_the_reader_presumes(name: str) -> None:
    rules = book(name)
    assert {path: attrgetter(path)(rules) for path in PRESUMED} == PRESUMED


@pytest.mark.parametrize("name", NAMES)
def test_the_engine_and_the_reader_agree_on_every_situation(
    name: str, record_property: Callable[[str, object], None]
) -> None:
    rules = book(name)
    record_property("paths", len(paths(name)))
    unlike = [
        (facts, differs)
        for facts, answers in paths(name)
        if (differs := difference(facts, answers, rules))
    ]
    assert unlike == []


@pytest.mark.parametrize("name", NAMES)
def test_a_ball_in_the_goal_counts_or_does_not(name: str) -> None:
    silent = [
        facts
        for facts, answers in paths(name)
        if answers["goal"] == "none"
        and any(facts.get(fact) in values for fact, values in IN_THE_GOAL.items())
    ]
    assert silent == []


def test_the_reader_tells_two_rulebooks_apart() -> None:
    rules = book("eleven")
    misread = [
        facts
        for facts, answers in paths("eight")
        if facts.get("flaw") == "stance"
        and facts.get("again") == "no"
        and difference(facts, answers, rules)
    ]
    assert misread == [
        {
            "moment": "taking",
            "seen": "form",
            "kind": "throw_in",
            "flaw": "stance",
            "again": "no",
        }
    ]
