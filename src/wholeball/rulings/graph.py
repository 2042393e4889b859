"""Compiles the rules of a rulebook to a graph: ask, follow the answer, come to the ruling."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.possible import Asks, Bits, Possible, Settles, possible
from wholeball.rulings.ruling import Unproven
from wholeball.rulings.settle import Settled, settle


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


def compile_rules(rules: Rules) -> Node:
    """Return the graph of a rulebook that has neither gap nor conflict.

    What is alike is built once: two nodes are the same object exactly when they lead to the
    same answers by the same articles. The paths are not walked one by one: what may still hold
    after some answers decides all that follows them, so each such rest is compiled once.

    Raises:
        Unproven: there is a gap or a conflict.
    """
    steps = possible(rules)
    return _Compiler(steps).node(0, steps.needed[0])


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
    """Builds nodes from the end: once for all that may still hold, and each kind of node once."""

    possible: Possible
    reached: dict[tuple[int, Bits], Node] = field(default_factory=dict)
    settled: dict[tuple[int, Bits], Settled] = field(default_factory=dict)
    made: dict[object, Node] = field(default_factory=dict)

    def node(self, at: int, bits: Bits) -> Node:
        """Return the node of the first step from `at` on that is taken."""
        taken = self.possible.next_step(at, bits)
        if taken not in self.reached:
            step = self.possible.steps[taken[0]]
            self.reached[taken] = (
                self._asked(step, *taken)
                if isinstance(step, Asks)
                else self._answered(step, *taken)
            )
        return self.reached[taken]

    def _asked(self, step: Asks, at: int, bits: Bits) -> Node:
        to = {
            value: self.node(at + 1, bits & step.left[value])
            for value in step.open_values(bits)
        }
        key = (step.fact, tuple((value, id(node)) for value, node in to.items()))
        return self.made.setdefault(key, Ask(step.fact, to))

    def _answered(self, step: Settles, at: int, bits: Bits) -> Node:
        settled = self._settled(step, at, step.claims & bits)
        is_last = at + 1 == len(self.possible.steps)
        then = None if is_last else self.node(at + 1, step.after(settled.answers, bits))
        names = tuple(claim.name for claim in settled.articles)
        key = (step.stage.name, tuple(settled.answers.items()), names, id(then))
        return self.made.setdefault(key, Answered(settled.answers, settled.articles, then))

    def _settled(self, step: Settles, at: int, applying: Bits) -> Settled:
        """Weigh the same claims once."""
        if (at, applying) not in self.settled:
            settled = settle(step.stage, self.possible.claims_of(applying))
            if settled.gaps or settled.conflicts:
                raise Unproven(step.stage.name, settled.gaps, settled.conflicts)
            self.settled[at, applying] = settled
        return self.settled[at, applying]
