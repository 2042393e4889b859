"""Lists every complete situation of a rulebook with what is ruled on it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from wholeball.rulings.bind import Rules
from wholeball.rulings.graph import Answered, Node, compile_rules

Answer: TypeAlias = tuple[tuple[str, str], ...]
"""The parts of an answer with their values, in the order of the stages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A complete situation and its answers."""

    facts: Mapping[str, str]
    answers: Answer


def cases(rules: Rules) -> tuple[Case, ...]:
    """Return every complete situation with its answers, in the order of the paths."""
    return cases_of(compile_rules(rules))


def cases_of(root: Node) -> tuple[Case, ...]:
    """Return the same from a graph that is compiled already."""
    return tuple(_below(root, {}, ()))


def _below(node: Node | None, facts: Mapping[str, str], answers: Answer) -> Iterator[Case]:
    if node is None:
        yield Case(facts=facts, answers=answers)
    elif isinstance(node, Answered):
        yield from _below(node.then, facts, (*answers, *node.answers.items()))
    else:
        for value, below in node.to.items():
            yield from _below(below, {**facts, node.fact: value}, answers)
