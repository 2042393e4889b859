"""Compares two rulebooks by what they rule, on all pairs of situations that agree."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from wholeball.rulings.bind import Rules
from wholeball.rulings.cases import Case, cases


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A pair of situations, one under each rulebook, that agree on every fact both ask.

    `parts` holds each part of the answer that differs: first what the one rulebook says, then
    the other.
    """

    one: Mapping[str, str]
    other: Mapping[str, str]
    parts: Mapping[str, tuple[str, str]]

    @property
    def shared(self) -> Mapping[str, str]:
        """The facts that both situations have."""
        return {name: value for name, value in self.one.items() if name in self.other}


def compare(one: Rules, other: Rules) -> Iterator[Difference]:
    """Yield each pair that agrees on all shared facts and is ruled differently.

    A rulebook may ask what the other does not, so equal paths are not enough: a path is paired
    with every path of the other that no shared fact contradicts.
    """
    names = tuple(fact.name for fact in one.space.facts)
    for case, pair in _pairs(cases(one), cases(other), names):
        if case.answers != pair.answers:
            mine, theirs = dict(case.answers), dict(pair.answers)
            yield Difference(
                one=case.facts,
                other=pair.facts,
                parts={
                    part: (value, theirs[part])
                    for part, value in mine.items()
                    if value != theirs[part]
                },
            )


def _pairs(
    ones: Sequence[Case], others: Sequence[Case], names: tuple[str, ...]
) -> Iterator[tuple[Case, Case]]:
    """Yield the pairs that agree on each name that both have, one name after the other."""
    if not ones or not others:
        return
    if not names:
        yield from product(ones, others)
        return
    here, rest = names[0], names[1:]
    mine, theirs = _by(ones, here), _by(others, here)
    without = theirs.pop(None, [])
    yield from _pairs(mine.pop(None, []), others, rest)
    for value, group in mine.items():
        yield from _pairs(group, [*theirs.get(value, ()), *without], rest)


def _by(found: Sequence[Case], name: str) -> dict[str | None, list[Case]]:
    groups: dict[str | None, list[Case]] = {}
    for case in found:
        groups.setdefault(case.facts.get(name), []).append(case)
    return groups
