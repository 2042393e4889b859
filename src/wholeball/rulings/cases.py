"""Lists every complete situation of a rulebook with what is ruled on it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.graph import Answered, Node, compile_rules

Answer: TypeAlias = tuple[tuple[str, str], ...]
"""The parts of an answer with their values, in the order of the stages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A complete situation, its answers, and the articles that say so."""

    facts: Mapping[str, str]
    answers: Answer
    articles: tuple[Claim, ...]


def cases(rules: Rules) -> tuple[Case, ...]:
    """Return every complete situation with its answers, in the order of the paths."""
    return cases_of(compile_rules(rules))


def cases_of(root: Node) -> tuple[Case, ...]:
    """Return the same from a graph that is compiled already."""
    return tuple(_below(root, Case(facts={}, answers=(), articles=())))


def _below(node: Node | None, so_far: Case) -> Iterator[Case]:
    if node is None:
        yield so_far
    elif isinstance(node, Answered):
        answers = (*so_far.answers, *node.answers.items())
        articles = (*so_far.articles, *node.articles)
        settled = Case(facts=so_far.facts, answers=answers, articles=articles)
        yield from _below(node.then, settled)
    else:
        for value, below in node.to.items():
            facts = {**so_far.facts, node.fact: value}
            yield from _below(below, replace(so_far, facts=facts))
