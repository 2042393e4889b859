"""Weighs the claims that apply: the undisplaced ones answer, and gaps and conflicts show."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.condition import Known, When, holds
from wholeball.rulings.fact import Fact
from wholeball.rulings.space import Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """What a stage answers: a value a part, or the parts that nobody or too many answer."""

    answers: Mapping[str, str]
    articles: tuple[Claim, ...]
    gaps: tuple[str, ...]
    conflicts: tuple[str, ...]


def settle(stage: Stage, applying: Iterable[Claim]) -> Settled:
    """Weigh the claims of a stage that apply; each must come before those it displaces.

    A displaced claim displaces nothing. A part that no undisplaced claim answers is a gap, one
    that two answer differently a conflict; neither has an answer.
    """
    standing = undisplaced(applying)
    said: dict[str, set[str]] = {part: set() for part in stage.parts}
    for claim in standing:
        for part, value in claim.then.items():
            said[part].add(value)
    return Settled(
        answers={part: min(values) for part, values in said.items() if len(values) == 1},
        articles=standing,
        gaps=tuple(part for part, values in said.items() if not values),
        conflicts=tuple(part for part, values in said.items() if len(values) > 1),
    )


def undisplaced(applying: Iterable[Claim]) -> tuple[Claim, ...]:
    """Return the claims that no standing claim displaces."""
    standing: list[Claim] = []
    gone: set[str] = set()
    for claim in applying:
        if claim.name not in gone:
            standing.append(claim)
            gone |= claim.over
    return tuple(standing)


def applying_in(stage: Stage, known: Known, rules: Rules) -> tuple[Claim, ...]:
    """Return the claims of a stage that apply once all that it asks is known."""
    return tuple(claim for claim in rules.settling[stage.name] if holds(claim.when, known))


def is_asked(fact: Fact, known: Known, rules: Rules) -> bool:
    """Tell whether a fact is asked: what is known calls for it and a claim waits for it.

    A claim waits for what it reads, and for what decides whether that is asked, as long as all
    that it reads may still turn out as it wants.
    """
    here = rules.place[fact.name]
    return fact.may_be_asked(known) and any(
        _may_hold(claim.when, known, here, rules)
        and _waits(fact.name, claim.when, known, here, rules)
        for claim in rules.readers[fact.name]
    )


def _may_hold(when: When, known: Known, here: int, rules: Rules) -> bool:
    """Tell whether a condition may still hold once everything from `here` on is asked."""
    return all(
        _may_arise(name, known, here, rules)
        if rules.place[name] >= here
        else known.get(name) in values
        for name, values in when.items()
    )


def _may_arise(name: str, known: Known, here: int, rules: Rules) -> bool:
    gates = rules.gates.get(name, ())
    return not gates or any(_may_hold(gate, known, here, rules) for gate in gates)


def _waits(wanted: str, when: When, known: Known, here: int, rules: Rules) -> bool:
    """Tell whether a condition that may hold reads a fact, or needs it to ask what it reads."""
    return wanted in when or any(
        wanted in rules.behind[name]
        and rules.place[name] > here
        and any(
            _may_hold(way, known, here, rules) and _waits(wanted, way, known, here, rules)
            for way in rules.ways[name]
        )
        for name in when
    )
