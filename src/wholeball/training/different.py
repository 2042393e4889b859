"""Finds situations that a house rules otherwise than the Laws: one for each article that does it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.paths import paths
from wholeball.rulings.ruling import Lacks
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
    situation in which it stands and the rulings differ.
    """
    found: dict[tuple[str, ...], Different] = {}
    for one, other, is_here in ((here, laws, True), (laws, here, False)):
        known = {claim.name: claim for claim in other.claims}
        for claim in one.claims:
            if claim.path is None or _is_same(claim, known.get(claim.name)):
                continue
            for mine, theirs in _pairs(claim, one, other):
                pair = (mine, theirs) if is_here else (theirs, mine)
                case = Different(path=claim.path, here=pair[0], laws=pair[1])
                found.setdefault(_kind(case), case)
                break
    return tuple(found.values())


def _is_same(one: Claim, other: Claim | None) -> bool:
    return other is not None and (one.when, one.then, one.over) == (
        other.when,
        other.then,
        other.over,
    )


def _pairs(claim: Claim, one: Rules, other: Rules) -> Iterator[tuple[Answered, Answered]]:
    """Yield situations in which a claim stands and that the other rulebook rules otherwise."""
    facts = {fact.name for fact in one.facts}
    given = {name: values for name, values in claim.when.items() if name in facts}
    for path in paths(one, given):
        if claim not in path.articles:
            continue
        seen = {name: value for name, value in path.known.items() if name in facts}
        mine, theirs = answered(seen, one), _completed(seen, other)
        if isinstance(mine, Answered) and differs(mine, theirs):
            yield mine, theirs


def _completed(seen: Mapping[str, str], rules: Rules) -> Answered:
    """Answer what only this rulebook asks with the first value that it offers."""
    told = dict(seen)
    while isinstance(found := answered(told, rules), Lacks):
        told[found.fact.name] = found.values[0]
    return found


def _kind(case: Different) -> tuple[str, ...]:
    """Return what tells two differences apart: the article, and what it makes of what."""
    parts = (f"{part} {case.here.ruling[part]} {case.laws.ruling[part]}" for part in SEEN_PARTS)
    return (case.path, case.here.situation.facts["seen"], *parts)
