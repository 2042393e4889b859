"""Times rulings: compiled, from a situation with its articles, and compiling a rulebook.

Compiling takes a rulebook to all that it takes to rule and to ask: its claims bound, its graph,
the packed rulings and the list of situations that the next question is chosen from. The
reference only walks the paths of the claims that are bound already, and keeps nothing.
"""

from collections.abc import Callable
from statistics import median
from typing import TypeVar

from benchmarks.in_turn import Measured, in_turn
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulings.bind import bind
from wholeball.rulings.cases import Case, cases_of
from wholeball.rulings.graph import compile_rules
from wholeball.rulings.packed import Packed, pack
from wholeball.rulings.paths import paths
from wholeball.rulings.ruling import Situation
from wholeball.rulings.spaces import GAME

REPEATS = 9
MOST_PACKED = 25.0
MOST_WITH_ARTICLES = 30.0
MOST_COMPILING = 0.5
_One = TypeVar("_One")


def measure() -> list[Measured]:
    """Return the ratios, medians of 9 in turn, over every situation of the newest edition."""
    book = edition("laws-2026-27")
    rules = bind(GAME, book)
    packed, cases = _compiled(book)
    situations = [dict(case.facts) for case in cases]
    codes = [packed.code(facts) for facts in situations]
    return [
        (
            "ruling, compiled, packed situation",
            "one call of a trivial function",
            _ratio(lambda: _all(packed.rule, codes), lambda: _all(_trivial, codes)),
            MOST_PACKED,
        ),
        (
            "ruling from a situation value, with articles",
            "building the situation",
            _ratio(
                lambda: _all(packed.ruling, situations),
                lambda: _all(_situation, situations),
            ),
            MOST_WITH_ARTICLES,
        ),
        (
            "compile a rulebook",
            "enumerating its paths with the claim engine",
            _ratio(lambda: _compiled(book), lambda: sum(1 for _ in paths(rules)), repeats=3),
            MOST_COMPILING,
        ),
    ]


def _compiled(book: Rulebook) -> tuple[Packed, tuple[Case, ...]]:
    rules = bind(GAME, book)
    root = compile_rules(rules)
    return pack(root, rules), cases_of(root)


def _trivial(value: object) -> object:
    return value


def _situation(facts: dict[str, str]) -> Situation:
    return Situation(facts=dict(facts))


def _all(call: Callable[[_One], object], values: list[_One]) -> None:
    for value in values:
        call(value)


def _ratio(
    work: Callable[[], object], reference: Callable[[], object], *, repeats: int = REPEATS
) -> float:
    referred, worked = in_turn(reference, work, times=repeats)
    return median(worked) / median(referred)
