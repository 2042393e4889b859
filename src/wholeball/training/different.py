"""Finds situations that a house rules otherwise than the Laws: one for each article that does it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.cases import cases
from wholeball.rulings.graph import Node, compile_rules, follow
from wholeball.training.answered import Answered, answered

SEEN_PARTS: Final = (
    "goal",
    "restart",
    "side",
    "spot",
    "taker",
    "resumed",
    "kick",
    "shown",
    "whom",
    "at_once",
    "care",
)
"""The parts of a ruling that somebody at the field can see."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Different:
    """A situation that is ruled differently here, and the article of the rulebook behind it."""

    path: str
    here: Answered
    laws: Answered


def differs(here: Answered, laws: Answered) -> bool:
    """Tell whether two rulings differ in what can be seen."""
    return any(here.ruling[part] != laws.ruling[part] for part in SEEN_PARTS)


def different(here: Rules, laws: Rules) -> tuple[Different, ...]:
    """Return one situation for each way in which an article of the house changes a ruling.

    Every claim that only one of the two makes, or makes otherwise, is followed to the first
    situation in which it stands and the rulings differ. In order of the articles' paths.
    """
    found: dict[tuple[str, ...], Different] = {}
    for one, other, is_here in ((here, laws, True), (laws, here, False)):
        for path, mine, theirs in _pairs(one, other):
            pair = (mine, theirs) if is_here else (theirs, mine)
            case = Different(path=path, here=pair[0], laws=pair[1])
            found.setdefault(_kind(case), case)
    return tuple(found[kind] for kind in sorted(found))


def _is_same(one: Claim, other: Claim | None) -> bool:
    return other is not None and (one.when, one.then, one.over) == (
        other.when,
        other.then,
        other.over,
    )


def _pairs(one: Rules, other: Rules) -> Iterator[tuple[str, Answered, Answered]]:
    """Yield, for each claim that is changed, a situation that the other rules otherwise."""
    known = {claim.name: claim for claim in other.claims}
    pending = {
        claim.name: claim.path
        for claim in one.claims
        if claim.path is not None and not _is_same(claim, known.get(claim.name))
    }
    if not pending:
        return
    graph = compile_rules(other)
    for case in cases(one):
        standing = sorted(claim.name for claim in case.articles if claim.name in pending)
        if not standing:
            continue
        told, answers = _completed(case.facts, graph, other)
        said = dict(case.answers)
        if any(said[part] != answers[part] for part in SEEN_PARTS):
            mine, theirs = answered(case.facts, one), answered(told, other)
            if isinstance(mine, Answered) and isinstance(theirs, Answered):
                yield from ((pending.pop(name), mine, theirs) for name in standing)


def _completed(
    seen: Mapping[str, str], graph: Node, rules: Rules
) -> tuple[Mapping[str, str], Mapping[str, str]]:
    """Answer what only this rulebook asks with the first value that leads on."""
    told = dict(seen)
    while isinstance(found := follow(graph, told), str):
        values = rules.space.fact(found).values
        told[found] = next(
            value for value in values if follow(graph, {**told, found: value}) != found
        )
    return told, found


def _kind(case: Different) -> tuple[str, ...]:
    """Return what tells two differences apart: the article, and what it makes of what."""
    parts = (f"{part} {case.here.ruling[part]} {case.laws.ruling[part]}" for part in SEEN_PARTS)
    return (case.path, case.here.situation.facts["seen"], *parts)
