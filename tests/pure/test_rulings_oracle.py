"""Rulings against a second, slow reader of the rulebook, written apart from the engine.

Every complete situation of five presets is held against it. Where the two differ and neither the
booklet nor the Laws' facts settle it, the difference stands in OPEN with its reason; no other
difference is allowed, and each of these must still be there.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Open:
    """A difference that is not settled: where, what each says, why, and on how many paths.

    Where the reader lacks a fact, `agree_if` gives values of facts under which the two agree.
    """

    name: str
    where: Mapping[str, tuple[str, ...]]
    differs: Mapping[str, Any]
    why: str
    source: str
    paths: Mapping[str, int]
    agree_if: Mapping[str, str] | None = None

    def is_it(self, facts: Mapping[str, str], differs: Mapping[str, Any]) -> bool:
        """Tell whether a difference on a path is this one."""
        return differs == self.differs and all(
            facts.get(name) in values for name, values in self.where.items()
        )


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

SILENT: Final = Counter({"in_goal": 5, "dropped_ball": 2})
"""Open too: off an official, and a dropped ball nobody touched (Laws 9.1 and 8.2), the ball goes in
and the engine rightly gives a dropped ball or has it dropped again, yet says nothing of the goal.
"""


OPEN: Final = (
    Open(
        name="a good kick from the mark",
        where={"kind": ("penalty_kick",), "at": ("kicks",), "flaw": ("none",)},
        differs={"lacks": "in_net"},
        agree_if={"in_net": "no"},
        why="the engine calls it not scored without asking whether the ball went in",
        source="Law 10.3: a kick properly taken that goes in is scored",
        paths=dict.fromkeys(NAMES, 1),
    ),
    Open(
        name="a throw-in from the wrong place to delay, where the first is taken again",
        where={"kind": ("throw_in",), "flaw": ("place_to_delay",)},
        differs={"lacks": "again"},
        agree_if={"again": "yes"},
        why="the booklet has a throw-in from the wrong place taken again the first time; the "
        "engine gives it to the opponents if it was done on purpose",
        source="the eight-a-side booklet, H 6.4, and the mixed one",
        paths={"eight": 2, "mixed": 2},
    ),
    Open(
        name="persistent offences",
        where={"seen": ("foul", "handling")},
        differs={"lacks": "often"},
        agree_if={"often": "no"},
        why="the engine asks whether the player offends again and again only of some direct free "
        "kick offences against an opponent; the reader asks it of every offence",
        source="Law 12.3: persistent offences, no number or pattern said",
        paths={"eleven": 135, "nine": 135, "eight": 135, "seven": 130, "mixed": 130},
    ),
    Open(
        name="a slide without contact that takes a chance, where slides are not allowed",
        where={"foul": ("slide",), "contact": ("no",)},
        differs={"lacks": "chance"},
        agree_if={"chance": "none", "often": "no"},
        why="the booklet says whether yellow is shown for the slide; the engine asks for no "
        "chance it took, so that an obvious one costs no more than any slide",
        source="the booklets on slide tackles (eight-a-side: H 6.1), against Law 12.3",
        paths={"nine": 10, "eight": 9, "seven": 18, "mixed": 20},
    ),
    Open(
        name="who is shown it when a goalkeeper handles outside the own area",
        where={"seen": ("handling",), "who": ("keeper",)},
        differs={"whom": ("A.goalkeeper", "A.offender")},
        why="the same person by another name: the engine says goalkeeper for a second touch at a "
        "restart, but offender here",
        source="common practice, no source",
        paths=dict.fromkeys(NAMES, 26),
    ),
    Open(
        name="play is stopped before a kick from the mark",
        where={"seen": ("stop",), "at": ("kicks",)},
        differs={
            "kick": (None, "not_scored"),
            "restart": ("unchanged", None),
            "spot": ("penalty_mark", None),
            "taker": ("none", None),
        },
        why="the engine leaves the restart unchanged and yet calls the kick not scored, for "
        "thunder, an injury or a call from outside; the reader has the kick still taken",
        source="Law 8: a stop while a restart is being taken does not change it",
        paths=dict.fromkeys(NAMES, 8),
    ),
    Open(
        name="the frame cannot be mended at a kick from the mark",
        where={"seen": ("stop",), "at": ("kicks",), "mended": ("no",)},
        differs={
            "kick": (None, "not_scored"),
            "restart": ("abandon", None),
            "spot": ("none", None),
            "taker": ("none", None),
        },
        why="the engine abandons and calls the kick not scored; nobody has kicked",
        source="Law 10.3: a kick is not scored once it was taken or forfeited",
        paths=dict.fromkeys(NAMES, 1),
    ),
    Open(
        name="play is stopped before a penalty kick for which the period was extended",
        where={"seen": ("stop",), "at": ("extended",)},
        differs={
            "restart": ("unchanged", "period_over"),
            "spot": ("penalty_mark", None),
            "taker": ("none", None),
        },
        why="the engine leaves the restart unchanged and yet has the period over before the kick "
        "is taken",
        source="every booklet, Law 7.4: a penalty kick given before that is still taken",
        paths=dict.fromkeys(NAMES, 8),
    ),
    Open(
        name="the frame cannot be mended at a penalty kick for which the period was extended",
        where={"seen": ("stop",), "at": ("extended",), "mended": ("no",)},
        differs={
            "restart": ("abandon", "period_over"),
            "spot": ("none", None),
            "taker": ("none", None),
        },
        why="the engine abandons the game and has the period over; the kick is still owed",
        source="every booklet, Law 7.4: a penalty kick given before that is still taken",
        paths=dict.fromkeys(NAMES, 1),
    ),
)


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
def test_the_engine_and_the_reader_agree_save_where_it_is_said(
    name: str, record_property: Callable[[str, object], None]
) -> None:
    rules = book(name)
    found: Counter[str] = Counter()
    unsaid = []
    for facts, answers in paths(name):
        differs = difference(facts, answers, rules)
        known = [one.name for one in OPEN if differs and one.is_it(facts, differs)]
        found.update(known)
        if differs and len(known) != 1:
            unsaid.append((facts, differs))
    record_property("paths", len(paths(name)))
    assert unsaid == []
    assert found == Counter({one.name: one.paths[name] for one in OPEN if name in one.paths})


@pytest.mark.parametrize("name", NAMES)
def test_where_the_reader_lacks_a_fact_one_value_of_it_makes_them_agree(name: str) -> None:
    rules = book(name)
    for facts, answers in paths(name):
        differs = difference(facts, answers, rules)
        for one in OPEN:
            if one.agree_if and differs and one.is_it(facts, differs):
                assert difference({**facts, **one.agree_if}, answers, rules) == {}, facts


@pytest.mark.parametrize("name", NAMES)
def test_a_ball_in_the_goal_counts_or_does_not_save_where_it_is_said(name: str) -> None:
    silent = Counter(
        facts.get("effect") or facts["kind"]
        for facts, answers in paths(name)
        if answers["goal"] == "none"
        and any(facts.get(fact) in values for fact, values in IN_THE_GOAL.items())
    )
    assert silent == SILENT


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
