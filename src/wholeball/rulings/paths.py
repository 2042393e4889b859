"""Walks the paths of a space: every way in which what is asked can be answered."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.fact import Fact
from wholeball.rulings.settle import Settled, applying_in, is_asked, settle
from wholeball.rulings.space import Space, Stage

Given = Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Walked:
    """A complete path of one stage: what is known, the claims that may yet apply, the answer."""

    known: Mapping[str, str]
    applying: tuple[Claim, ...]
    settled: Settled


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A complete path through all stages: what is known, answers included, and the articles."""

    known: Mapping[str, str]
    articles: tuple[Claim, ...]


def paths(rules: Rules, given: Given | None = None) -> Iterator[Path]:
    """Yield every complete path, or every one whose facts have values that are given."""
    yield from _further(rules, rules.space.stages, Path(known={}, articles=()), given or {})


def _further(
    rules: Rules, stages: tuple[Stage, ...], so_far: Path, given: Given
) -> Iterator[Path]:
    if not stages:
        yield so_far
        return
    for walked in stage_paths(rules, stages[0], so_far.known, given):
        yield from _further(
            rules,
            stages[1:],
            Path(
                known={**walked.known, **walked.settled.answers},
                articles=(*so_far.articles, *walked.settled.articles),
            ),
            given,
        )


def stage_paths(
    rules: Rules, stage: Stage, known: Mapping[str, str], given: Given
) -> Iterator[Walked]:
    """Yield every complete path of a stage that starts with what is known.

    A fact that is given has only the values that are given, where it is asked.
    """
    way = _Way(rules=rules, stage=stage, given=given)
    yield from way.on(way.facts, known)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """The way through one stage."""

    rules: Rules
    stage: Stage
    given: Given

    @property
    def facts(self) -> tuple[Fact, ...]:
        return tuple(fact for fact in self.rules.facts if fact.stage == self.stage.name)

    def on(self, facts: tuple[Fact, ...], known: Mapping[str, str]) -> Iterator[Walked]:
        """Yield every complete path from here on, with the facts that are still to come."""
        if not facts:
            applying = applying_in(self.stage, known, self.rules)
            yield Walked(known=known, applying=applying, settled=settle(self.stage, applying))
            return
        fact, later = facts[0], facts[1:]
        if not is_asked(fact, known, self.rules):
            yield from self.on(later, known)
            return
        for value in self._values(fact, known):
            yield from self.on(later, {**known, fact.name: value})

    def _values(self, fact: Fact, known: Mapping[str, str]) -> tuple[str, ...]:
        allowed = self.given.get(fact.name, fact.values.keys())
        return tuple(value for value in fact.open_values(known) if value in allowed)


def read_later(rules: Rules, stage: Stage) -> frozenset[str]:
    """Return every name that stages after this one read."""
    after = from_stages(rules.space, stage)[1:]
    live = [claim for claim in rules.claims if claim.stage in after]
    asked = frozenset(name for claim in live for name in rules.reads[claim.name])
    gates = (fact.reads for fact in rules.facts if fact.stage in after and fact.name in asked)
    return asked.union(*gates)


def from_stages(space: Space, stage: Stage) -> list[str]:
    names = [one.name for one in space.stages]
    return names[names.index(stage.name) :]
