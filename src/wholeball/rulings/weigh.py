"""Weighs a compiled graph: where each fact decides, which values rule alike, what can come out."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

from wholeball.rulings.graph import Answered, Ask, Node, nodes

Outcome = frozenset[tuple[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """At how many nodes each fact decides, and pairs of its values that always rule alike.

    `idle` holds the values of deciding facts that are offered only where the fact decides nothing.
    """

    decides: Mapping[str, int]
    alike: tuple[tuple[str, str, str], ...]
    idle: tuple[tuple[str, str], ...]


def weigh(root: Node) -> Weighed:
    """Return where the facts of a graph decide."""
    decides: dict[str, int] = {}
    values: dict[tuple[str, str], bool] = {}
    together: dict[tuple[str, str, str], bool] = {}
    for node in nodes(root):
        if not isinstance(node, Ask):
            continue
        decides[node.fact] = decides.get(node.fact, 0) + (not node.is_idle)
        for value in node.to:
            values[node.fact, value] = values.get((node.fact, value), True) and node.is_idle
        for one, other in combinations(node.to, 2):
            pair = (node.fact, one, other)
            together[pair] = together.get(pair, True) and node.to[one] is node.to[other]
    return Weighed(
        decides=decides,
        alike=tuple(sorted(pair for pair, alike in together.items() if alike)),
        idle=tuple(pair for pair, idle in values.items() if idle and decides[pair[0]]),
    )


def outcomes(root: Node, *, with_articles: bool) -> frozenset[Outcome]:
    """Return every ruling that can come out, told apart by its articles too or not."""
    known: dict[int, frozenset[Outcome]] = {}

    def of(node: Node | None) -> frozenset[Outcome]:
        if node is None:
            return frozenset({frozenset()})
        if id(node) not in known:
            known[id(node)] = _of_ask(node) if isinstance(node, Ask) else _of_answer(node)
        return known[id(node)]

    def _of_ask(node: Ask) -> frozenset[Outcome]:
        return frozenset().union(*(of(below) for below in node.to.values()))

    def _of_answer(node: Answered) -> frozenset[Outcome]:
        names = ((claim.name, "stands") for claim in node.articles if with_articles)
        own = frozenset({*node.answers.items(), *names})
        return frozenset(own | below for below in of(node.then))

    return of(root)
