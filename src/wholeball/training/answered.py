"""Answers what is asked from what somebody saw, and leaves out what a rulebook does not ask."""

from collections.abc import Mapping
from dataclasses import dataclass

from wholeball.rulings.bind import Rules
from wholeball.rulings.ruling import Lacks, Ruling, Situation, rule_by


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """A complete situation under one rulebook, and its ruling."""

    situation: Situation
    ruling: Ruling


def answered(seen: Mapping[str, str], rules: Rules) -> Answered | Lacks:
    """Return the ruling of what was seen, or the first fact that it lacks.

    What was seen may hold more than this rulebook asks: one account serves several rulebooks.

    Raises:
        WholeballError: a value is unknown or contradicts another.
    """
    facts: dict[str, str] = {}
    while True:
        situation = Situation(facts=dict(facts))
        found = rule_by(situation, rules)
        if isinstance(found, Ruling):
            return Answered(situation=situation, ruling=found)
        if found.fact.name not in seen:
            return found
        facts[found.fact.name] = seen[found.fact.name]
