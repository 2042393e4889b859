"""Packs a compiled graph into one tree a rulebook: a situation as bytes, a ruling at its leaf."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.graph import Answered, Node
from wholeball.rulings.ruling import Ruling

_Branch: TypeAlias = "tuple[int, list[_Below | None]]"
_Below: TypeAlias = "_Branch | Ruling"


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """The rulings of a rulebook, ready to be looked up; what it does not ask, it does not read.

    `root` holds the place of a fact in a packed situation, and a branch for each of its values.
    """

    root: _Branch
    places: Mapping[str, int]
    numbers: Mapping[str, Mapping[str, int]]

    def code(self, facts: Mapping[str, str]) -> bytes:
        """Return a situation as one byte a fact: 0 where it was not asked, else its value."""
        packed = bytearray(len(self.places))
        for name, value in facts.items():
            packed[self.places[name]] = self.numbers[name][value]
        return bytes(packed)

    def rule(self, code: bytes) -> Ruling | None:
        """Return the ruling of a complete packed situation, or None where a fact lacks."""
        branch: _Below | None = self.root
        while type(branch) is tuple:
            branch = branch[1][code[branch[0]]]
        return branch  # type: ignore[return-value]  # a type test that mypy does not narrow by

    def ruling(self, facts: Mapping[str, str]) -> Ruling | None:
        """Return the ruling of a situation by fact and value, or None where a fact lacks."""
        return self.rule(self.code(facts))


def pack(root: Node, rules: Rules) -> Packed:
    """Return the packed rulings of a compiled graph; questions that decide nothing are left out."""
    places = {fact.name: place for place, fact in enumerate(rules.facts)}
    numbers = {
        fact.name: {value: number for number, value in enumerate(fact.values, start=1)}
        for fact in rules.facts
    }
    branch = _Packer(places=places, numbers=numbers, made={}).branch(root, (), ())
    if isinstance(branch, Ruling):
        raise TypeError("a rulebook that asks nothing has nothing to pack")
    return Packed(root=branch, places=places, numbers=numbers)


_Answers: TypeAlias = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Packer:
    """Builds the tree, what is alike once."""

    places: Mapping[str, int]
    numbers: Mapping[str, Mapping[str, int]]
    made: dict[tuple[int, _Answers, tuple[str, ...]], _Below]

    def branch(self, node: Node, answers: _Answers, articles: tuple[Claim, ...]) -> _Below:
        key = (id(node), answers, tuple(claim.name for claim in articles))
        if key not in self.made:
            self.made[key] = self._built(node, answers, articles)
        return self.made[key]

    def _built(self, node: Node, answers: _Answers, articles: tuple[Claim, ...]) -> _Below:
        if isinstance(node, Answered):
            answers = (*answers, *node.answers.items())
            articles = (*articles, *node.articles)
            if node.then is None:
                return Ruling(answers=dict(answers), articles=articles)
            return self.branch(node.then, answers, articles)
        if node.is_idle:
            return self.branch(next(iter(node.to.values())), answers, articles)
        numbers = self.numbers[node.fact]
        ways: list[_Below | None] = [None] * (len(numbers) + 1)
        for value, below in node.to.items():
            ways[numbers[value]] = self.branch(below, answers, articles)
        return (self.places[node.fact], ways)
