"""Compiles the rules of a rulebook to a graph: ask, follow the answer, come to the ruling."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.fact import Fact
from wholeball.rulings.paths import read_later, still_possible
from wholeball.rulings.settle import applying_in, is_asked, narrowed, settle
from wholeball.rulings.space import Stage


@dataclass(frozen=True, slots=True, eq=False)
class Ask:
    """A fact is asked, and each answer leads on; `is_idle` if all lead to the same node."""

    fact: str
    to: Mapping[str, "Node"]

    @property
    def is_idle(self) -> bool:
        """Whether no answer makes a difference here."""
        return len({id(node) for node in self.to.values()}) == 1


@dataclass(frozen=True, slots=True, eq=False)
class Answered:
    """A stage is settled: these parts of the answer, by these articles."""

    answers: Mapping[str, str]
    articles: tuple[Claim, ...]
    then: "Node | None"


Node: TypeAlias = Ask | Answered
_State: TypeAlias = frozenset[tuple[str, str]]


def compile_rules(rules: Rules) -> Node:
    """Return the graph of a rulebook that has neither gap nor conflict.

    What is alike is built once: two nodes are the same object exactly when they lead to the
    same answers by the same articles.
    """
    return _Compiler(rules).compiled()


def nodes(root: Node) -> Iterator[Node]:
    """Yield every node once."""
    seen: set[int] = set()
    waiting: list[Node] = [root]
    while waiting:
        node = waiting.pop()
        if id(node) in seen:
            continue
        seen.add(id(node))
        yield node
        waiting.extend(_next(node))


def follow(root: Node, facts: Mapping[str, str]) -> dict[str, str] | str:
    """Return the answers of a situation, or the name of the fact that it lacks."""
    answers: dict[str, str] = {}
    node: Node | None = root
    while node is not None:
        if isinstance(node, Answered):
            answers.update(node.answers)
            node = node.then
        elif facts.get(node.fact) in node.to:
            node = node.to[facts[node.fact]]
        else:
            return node.fact
    return answers


def _next(node: Node) -> Iterator[Node]:
    if isinstance(node, Ask):
        yield from node.to.values()
    elif node.then is not None:
        yield node.then


@dataclass(slots=True)
class _Compiler:
    """Builds nodes from the end, each kind of node once."""

    rules: Rules
    made: dict[object, Node] = field(default_factory=dict)
    entered: dict[tuple[str, _State], Node] = field(default_factory=dict)
    kept: dict[str, frozenset[str]] = field(default_factory=dict)

    def compiled(self) -> Node:
        self.kept = {s.name: read_later(self.rules, s) for s in self.rules.space.stages}
        return self._enter(self.rules.space.stages, {})

    def _enter(self, stages: tuple[Stage, ...], known: Mapping[str, str]) -> Node:
        """Return the node at which a stage begins, once for each state it can begin with."""
        stage = stages[0]
        key = (stage.name, frozenset(known.items()))
        if key not in self.entered:
            facts = tuple(fact for fact in self.rules.facts if fact.stage == stage.name)
            possible = still_possible(self.rules, stage, known)
            self.entered[key] = self._ask(stages, facts, known, possible)
        return self.entered[key]

    def _ask(
        self,
        stages: tuple[Stage, ...],
        facts: tuple[Fact, ...],
        known: Mapping[str, str],
        possible: list[Claim],
    ) -> Node:
        if not facts:
            return self._settle(stages, known, possible)
        fact, later = facts[0], facts[1:]
        if not is_asked(fact, known, possible, self.rules):
            return self._ask(stages, later, known, possible)
        to = {
            value: self._ask(
                stages, later, {**known, fact.name: value}, narrowed(possible, fact.name, value)
            )
            for value in fact.open_values(known)
        }
        key = (fact.name, tuple((value, id(node)) for value, node in to.items()))
        return self.made.setdefault(key, Ask(fact.name, to))

    def _settle(
        self, stages: tuple[Stage, ...], known: Mapping[str, str], possible: list[Claim]
    ) -> Node:
        stage = stages[0]
        settled = settle(stage, applying_in(stage, possible, known))
        then = None
        if stages[1:]:
            after = {**known, **settled.answers}
            kept = self.kept[stage.name]
            then = self._enter(stages[1:], {n: v for n, v in after.items() if n in kept})
        names = tuple(claim.name for claim in settled.articles)
        key = (stage.name, tuple(settled.answers.items()), names, id(then))
        return self.made.setdefault(key, Answered(settled.answers, settled.articles, then))
