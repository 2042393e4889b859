"""Takes articles and values away one at a time: what goes unnoticed is listed with its reason.

No outside source: this tests the proof, as facts about the articles themselves.
"""

from collections.abc import Iterator
from functools import cache
from typing import Final

from cases.rulebooks import HOUSES, rulebook
from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.paths import Walked, read_later, stage_paths
from wholeball.rulings.settle import settle
from wholeball.rulings.space import Space, Stage
from wholeball.rulings.spaces import PROVED

BOOKS: Final = (
    "mixed",
    "eight",
    "five_indoor",
    *HOUSES,
    "laws-2018-19",
    "laws-2019-20",
    "laws-2020-21",
    "laws-2024-25",
    "laws-2026-27",
)
UNMISSED: Final = {
    "defenders_in_goal_area_own: restart direct_free_kick": "a house with direct kicks only",
}
"""Values that no rulebook above misses, with the rulebook that would."""
Used = tuple[str, str, str]
"""An article, a name that its condition reads, and a value of that name."""


def walked(rules: Rules) -> Iterator[tuple[Stage, Walked]]:
    """Yield every path of every stage, from each state that differs for it."""
    states: set[frozenset[tuple[str, str]]] = {frozenset()}
    for stage in rules.space.stages:
        kept = read_later(rules, stage)
        after: set[frozenset[tuple[str, str]]] = set()
        for state in states:
            for one in stage_paths(rules, stage, dict(state), {}):
                yield stage, one
                known = {**one.known, **one.settled.answers}
                after.add(frozenset(pair for pair in known.items() if pair[0] in kept))
        states = after


def is_missed(stage: Stage, one: Walked, without: Claim) -> bool:
    again = settle(stage, (claim for claim in one.applying if claim is not without))
    return (again.answers, again.gaps) != (one.settled.answers, one.settled.gaps)


@cache
def noticed() -> tuple[frozenset[str], frozenset[Used], frozenset[Used]]:
    """Return articles and values that are missed somewhere, and all values that are written."""
    articles: set[str] = set()
    values: set[Used] = set()
    written: set[Used] = set()
    for space in PROVED:
        for name in BOOKS:
            rules = bind(space, rulebook(name))
            written |= set(_written(rules))
            for stage, one in walked(rules):
                for claim in one.applying:
                    if is_missed(stage, one, claim):
                        articles.add(claim.name)
                        values |= {(claim.name, on, one.known[on]) for on in claim.when}
    return frozenset(articles), frozenset(values), frozenset(written)


def _written(rules: Rules) -> Iterator[Used]:
    """Yield the values that a condition names; what "not" leaves over is not written."""
    said = {article.name: article.when for article in rules.space.articles}
    for claim in rules.claims:
        for on, values in claim.when.items():
            if not said[claim.name][on].startswith("not "):
                yield from ((claim.name, on, value) for value in values)


def names(space: Space) -> set[str]:
    return {article.name for article in space.articles}


def test_each_article_is_missed_somewhere_when_it_is_taken_away() -> None:
    missed, _, _ = noticed()
    assert set().union(*map(names, PROVED)) - missed == set()


def test_each_value_that_a_condition_names_is_missed_somewhere() -> None:
    _, missed, written = noticed()
    assert {f"{name}: {on} {value}" for name, on, value in written - missed} == set(UNMISSED)
