"""Lists every complete situation of a rulebook with what is ruled on it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from wholeball.rulings.bind import Rules
from wholeball.rulings.paths import paths

Answer: TypeAlias = tuple[tuple[str, str], ...]
"""The parts of an answer with their values, in the order of the stages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A complete situation and its answers."""

    facts: Mapping[str, str]
    answers: Answer


def cases(rules: Rules) -> tuple[Case, ...]:
    """Return every complete situation with its answers."""
    facts = [fact.name for fact in rules.facts]
    parts = [part for stage in rules.space.stages for part in stage.parts]
    return tuple(
        Case(
            facts={name: path.known[name] for name in facts if name in path.known},
            answers=tuple((part, path.known[part]) for part in parts),
        )
        for path in paths(rules)
    )
