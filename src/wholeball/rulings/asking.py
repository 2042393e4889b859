"""Chooses what to ask: the fewest questions on average, looking two steps ahead."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import log2

from wholeball.rulings.cases import Case
from wholeball.rulings.graph import Ask, Node


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A fact to ask, and what to ask after each answer; None where the ruling is found."""

    fact: str
    then: Mapping[str, "Question | None"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """How many questions it takes: on average over all situations, and at worst."""

    mean: float
    worst: int


def questions(left: Sequence[Case]) -> Question | None:
    """Return the questions that tell the rulings of these situations apart."""
    best = best_question(left)
    if best is None:
        return None
    then = {value: questions(part) for value, part in _split(left, best).items()}
    return Question(fact=best, then=then)


def best_question(left: Sequence[Case]) -> str | None:
    """Return the fact to ask next, or None where all these situations are ruled alike.

    Only what can be answered in each of them is asked. The best question leaves least to find
    out after it and the best one that follows; of equal ones, the one that leaves least by
    itself, and then the one that is asked first.
    """
    if len({case.answers for case in left}) == 1:
        return None
    return min(
        _askable(left), key=lambda fact: (_left_after_two(left, fact), _left_after(left, fact))
    )


def entropy(left: Iterable[Case]) -> float:
    """Return how many yes-or-no questions it takes at least on average, in bits."""
    counts = Counter(case.answers for case in left)
    total = counts.total()
    return -sum(count / total * log2(count / total) for count in counts.values())


def fewest(left: Sequence[Case]) -> float:
    """Return a bound: no order of questions takes fewer on average.

    Entropy in bits over the bits of the question with most answers.
    """
    facts = {fact for case in left for fact in case.facts}
    return entropy(left) / log2(max(_values(left, fact) for fact in facts))


def cost(asked: Question | None, left: Sequence[Case]) -> Cost:
    """Return what it costs to find the ruling of these situations by these questions."""
    counts = [_depth(asked, case) for case in left]
    return Cost(mean=sum(counts) / len(counts), worst=max(counts))


def cost_in_order(root: Node, left: Sequence[Case]) -> Cost:
    """Return what it costs in the fixed order of the facts, idle questions left out."""
    counts = [_depth_in_order(root, case) for case in left]
    return Cost(mean=sum(counts) / len(counts), worst=max(counts))


def _askable(left: Sequence[Case]) -> list[str]:
    shared = set(left[0].facts)
    for case in left:
        shared &= case.facts.keys()
    return [fact for fact in left[0].facts if fact in shared and _values(left, fact) > 1]


def _values(left: Sequence[Case], fact: str) -> int:
    return len({case.facts[fact] for case in left if fact in case.facts})


def _split(left: Sequence[Case], fact: str) -> dict[str, list[Case]]:
    parts: dict[str, list[Case]] = {}
    for case in left:
        parts.setdefault(case.facts[fact], []).append(case)
    return parts


def _left_after(left: Sequence[Case], fact: str) -> float:
    return sum(len(part) * entropy(part) for part in _split(left, fact).values())


def _left_after_two(left: Sequence[Case], fact: str) -> float:
    return sum(_least_after_one(part) for part in _split(left, fact).values())


def _least_after_one(left: Sequence[Case]) -> float:
    if len({case.answers for case in left}) == 1:
        return 0.0
    return min(_left_after(left, fact) for fact in _askable(left))


def _depth(asked: Question | None, case: Case) -> int:
    depth = 0
    while asked is not None:
        depth += 1
        asked = asked.then[case.facts[asked.fact]]
    return depth


def _depth_in_order(root: Node, case: Case) -> int:
    depth = 0
    node: Node | None = root
    while node is not None:
        if isinstance(node, Ask):
            depth += not node.is_idle
            node = node.to[case.facts[node.fact]]
        else:
            node = node.then
    return depth
