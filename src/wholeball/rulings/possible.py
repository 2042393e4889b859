"""Keeps what may still hold as bits of one number: a bit for each condition of a rulebook."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.condition import When
from wholeball.rulings.fact import Fact
from wholeball.rulings.space import Stage

Bits: TypeAlias = int
"""Some of the conditions; a claim's has the number of the claim."""
Left: TypeAlias = Mapping[str | None, Bits]
"""What each value of a name leaves possible; under None, what having no value leaves."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asks:
    """A step that asks a fact.

    `gates` are the conditions that call for it, all there are where it is called for always;
    `ways` are those of its own that call for it or cut its values, `readers` all that read it;
    `shut` holds for each value what contradicts it.
    """

    fact: str
    gates: Bits
    ways: Bits
    readers: Bits
    shut: Mapping[str, Bits]
    left: Left

    def open_values(self, bits: Bits) -> Iterator[str]:
        """Yield the values that nothing contradicts."""
        return (value for value, cuts in self.shut.items() if not cuts & bits)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settles:
    """A step that settles a stage by those of its claims that are possible until then."""

    stage: Stage
    claims: Bits
    left: Mapping[str, Left]

    def after(self, answers: Mapping[str, str], bits: Bits) -> Bits:
        """Return what the answers leave possible."""
        for part, left in self.left.items():
            bits &= left[answers.get(part)]
        return bits


@dataclass(frozen=True, slots=True, kw_only=True)
class Possible:
    """The steps of a rulebook. What may still hold decides all that follows a step.

    `needed` holds, for each step and for the end, what is read from there on, `facts` the steps
    from there on that ask; `claimed` are the conditions of claims.
    """

    claims: tuple[Claim, ...]
    claimed: Bits
    steps: tuple[Asks | Settles, ...]
    needed: tuple[Bits, ...]
    facts: tuple[tuple[Asks, ...], ...]

    def next_step(self, at: int, bits: Bits) -> tuple[int, Bits]:
        """Return the place of the first step from `at` on that is taken, with what may hold there.

        A fact is passed over where nothing calls for it or no claim waits for it; either way,
        no claim that may still hold reads it.
        """
        bits = self._may_hold(at, bits)
        while isinstance(step := self.steps[at], Asks) and not self._is_asked(step, at, bits):
            at += 1
        return at, bits & self.needed[at]

    def claims_of(self, bits: Bits) -> Iterator[Claim]:
        """Yield the claims whose conditions these are, in their order."""
        while bits:
            lowest = bits & -bits
            yield self.claims[lowest.bit_length() - 1]
            bits ^= lowest

    def _may_hold(self, at: int, bits: Bits) -> Bits:
        """Leave out what is read no more, and what waits for a fact nothing will call for."""
        bits &= self.needed[at]
        for fact in self.facts[at]:
            if not fact.gates & bits:
                bits &= fact.left[None]
        return bits

    def _is_asked(self, step: Asks, at: int, bits: Bits) -> bool:
        """Tell whether a claim waits for a fact, or for one that this fact helps to ask."""
        if not step.gates & bits:
            return False
        waiting = step.readers & bits
        for later in self.facts[at + 1]:
            if later.ways & waiting:
                waiting |= later.readers & bits
        return bool(waiting & self.claimed)


def possible(rules: Rules) -> Possible:
    """Return the steps of rules, their conditions numbered."""
    return _Numbering(rules).possible()


class _Numbering:
    """Numbers the conditions: those of the claims first, then those on the ways to facts."""

    def __init__(self, rules: Rules) -> None:
        self._rules = rules
        whens = [claim.when for claim in rules.claims]
        self._ways: dict[str, range] = {}
        for name, ways in rules.ways.items():
            self._ways[name] = range(len(whens), len(whens) + len(ways))
            whens.extend(ways)
        self._all = _bits(range(len(whens)))
        self._left = _left_by(whens, rules.space.values, self._all)

    def possible(self) -> Possible:
        steps = tuple(self._steps())
        return Possible(
            claims=self._rules.claims,
            claimed=_bits(range(len(self._rules.claims))),
            steps=steps,
            needed=tuple(
                _union(_needed(step) for step in steps[at:]) for at in range(len(steps) + 1)
            ),
            facts=tuple(
                tuple(step for step in steps[at:] if isinstance(step, Asks))
                for at in range(len(steps) + 1)
            ),
        )

    def _steps(self) -> Iterator[Asks | Settles]:
        for stage in self._rules.space.stages:
            yield from (
                self._asks(fact) for fact in self._rules.facts if fact.stage == stage.name
            )
            yield self._settles(stage)

    def _asks(self, fact: Fact) -> Asks:
        ways, calls = self._ways[fact.name], len(fact.asked_when)
        left = self._left[fact.name]
        return Asks(
            fact=fact.name,
            gates=_bits(ways[:calls]) if calls else self._all,
            ways=_bits(ways),
            readers=self._all & ~left[None],
            shut={
                value: _bits(
                    number
                    for number, cut in zip(ways[calls:], fact.cuts, strict=True)
                    if value in cut.values
                )
                for value in fact.values
            },
            left=left,
        )

    def _settles(self, stage: Stage) -> Settles:
        return Settles(
            stage=stage,
            claims=_bits(
                number
                for number, claim in enumerate(self._rules.claims)
                if claim.stage == stage.name
            ),
            left={part: self._left[part] for part in stage.parts},
        )


def _left_by(
    whens: list[When], values: Mapping[str, Iterable[str]], whole: Bits
) -> dict[str, dict[str | None, Bits]]:
    left = {name: dict.fromkeys((*named, None), whole) for name, named in values.items()}
    for number, when in enumerate(whens):
        for name, wanted in when.items():
            for value in left[name].keys() - wanted:
                left[name][value] ^= 1 << number
    return left


def _needed(step: Asks | Settles) -> Bits:
    return step.ways if isinstance(step, Asks) else step.claims


def _bits(numbers: Iterable[int]) -> Bits:
    return sum(1 << number for number in numbers)


def _union(several: Iterable[Bits]) -> Bits:
    union = 0
    for bits in several:
        union |= bits
    return union
