"""Proves a rulebook: walks every path by stages and reports what has not exactly one answer."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from wholeball.rulings.bind import Rules
from wholeball.rulings.graph import compile_rules
from wholeball.rulings.paths import Walked, read_later, stage_paths
from wholeball.rulings.settle import settle
from wholeball.rulings.space import Stage
from wholeball.rulings.weigh import outcomes, weigh

OPEN: Final = ("gap", "conflict")
"""Findings that leave a situation without exactly one ruling."""
ERRORS: Final = (*OPEN, "fact that decides nowhere", "value that decides nowhere")
"""Findings that no rulebook may have; a house may leave an article or displacement unused."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something wrong: its kind, what it is about, and one situation in which it shows."""

    code: str
    about: str
    situation: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class StageProof:
    """How many paths a stage was proved on, and how many complete ones they stand for."""

    stage: str
    paths: int
    stands_for: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What was walked and what was found; an empty `findings` is a pass.

    `decides` says at how many nodes of the compiled graph each fact makes a difference; a fact
    that is missing is not asked under this rulebook. `alike` holds pairs of values that rule
    alike wherever both may be given: kept for their words. Where an answer is missing or double,
    there is no graph, and these and the counts of rulings are empty.
    """

    space: str
    claims: int
    stages: tuple[StageProof, ...]
    rulings: int
    rulings_with_articles: int
    decides: Mapping[str, int]
    alike: tuple[tuple[str, str, str], ...]
    findings: tuple[Finding, ...]

    def count(self, code: str) -> int:
        """Return how many findings of a kind there are."""
        return sum(finding.code == code for finding in self.findings)

    @property
    def has_errors(self) -> bool:
        """Whether something was found that no rulebook may have."""
        return any(finding.code in ERRORS for finding in self.findings)


def prove(rules: Rules) -> Proof:
    """Return the proof of a rulebook's rules. Exact: no path is left out.

    After each stage, paths that agree on all that later stages read are merged and counted.
    """
    walk = _Walk(rules)
    for stage in rules.space.stages:
        walk.through(stage)
    found = (*walk.findings, *walk.unused())
    is_total = not any(finding.code in OPEN for finding in found)
    return _with_graph(rules, walk, found) if is_total else _without_graph(rules, walk, found)


def _without_graph(rules: Rules, walk: "_Walk", found: tuple[Finding, ...]) -> Proof:
    return Proof(
        space=rules.space.name,
        claims=len(rules.claims),
        stages=tuple(walk.stages),
        rulings=0,
        rulings_with_articles=0,
        decides={},
        alike=(),
        findings=found,
    )


def _with_graph(rules: Rules, walk: "_Walk", found: tuple[Finding, ...]) -> Proof:
    root = compile_rules(rules)
    weighed = weigh(root)
    facts = [name for name, count in weighed.decides.items() if count == 0]
    values = [f"{fact}: {value}" for fact, value in weighed.idle]
    idle = (
        *(_never("fact that decides nowhere", about) for about in facts),
        *(_never("value that decides nowhere", about) for about in values),
    )
    return replace(
        _without_graph(rules, walk, (*found, *idle)),
        rulings=len(outcomes(root, with_articles=False)),
        rulings_with_articles=len(outcomes(root, with_articles=True)),
        decides=weighed.decides,
        alike=weighed.alike,
    )


class _Walk:
    """Keeps what a proof has seen so far, one stage after the other."""

    def __init__(self, rules: Rules) -> None:
        self._rules = rules
        self._states: Counter[frozenset[tuple[str, str]]] = Counter({frozenset(): 1})
        self._examples: dict[frozenset[tuple[str, str]], Mapping[str, str]] = {frozenset(): {}}
        self.stages: list[StageProof] = []
        self.findings: list[Finding] = []
        self._standing: set[str] = set()
        self._needed: set[tuple[str, str]] = set()
        self._used: dict[str, set[str]] = {}

    def through(self, stage: Stage) -> None:
        """Walk a stage from every state that the stages before it left."""
        kept = read_later(self._rules, stage)
        states: Counter[frozenset[tuple[str, str]]] = Counter()
        examples: dict[frozenset[tuple[str, str]], Mapping[str, str]] = {}
        paths = 0
        for state, count in self._states.items():
            for walked in stage_paths(self._rules, stage, dict(state), {}):
                paths += 1
                known = {**self._examples[state], **walked.known}
                self._judge(walked, known, stage)
                after = {**walked.known, **walked.settled.answers}
                left = frozenset(pair for pair in after.items() if pair[0] in kept)
                states[left] += count
                examples.setdefault(left, {**known, **walked.settled.answers})
        self._states, self._examples = states, examples
        self.stages.append(
            StageProof(stage=stage.name, paths=paths, stands_for=sum(states.values()))
        )

    def _judge(self, walked: Walked, known: Mapping[str, str], stage: Stage) -> None:
        facts = {fact.name for fact in self._rules.facts}
        situation = {name: value for name, value in known.items() if name in facts}
        for code, parts in (
            ("gap", walked.settled.gaps),
            ("conflict", walked.settled.conflicts),
        ):
            for part in parts:
                claimed = [c.name for c in walked.settled.articles if part in c.then]
                about = f"{stage.name}: {part} ({', '.join(claimed) or 'nobody'})"
                self.findings.append(Finding(code=code, about=about, situation=situation))
        for name, value in situation.items():
            self._used.setdefault(name, set()).add(value)
        self._standing.update(claim.name for claim in walked.settled.articles)
        self._note_needed(walked, stage)

    def _note_needed(self, walked: Walked, stage: Stage) -> None:
        """Note each displacement without which this path would be answered otherwise."""
        names = {claim.name for claim in walked.applying}
        for claim in walked.settled.articles:
            for over in claim.over & names:
                if (claim.name, over) not in self._needed and _differs(
                    walked, stage, claim.name, over
                ):
                    self._needed.add((claim.name, over))

    def unused(self) -> Iterator[Finding]:
        """Yield what was never used, once all stages are walked."""
        live = {claim.name for claim in self._rules.claims}
        for claim in self._rules.claims:
            if claim.name not in self._standing:
                yield _never("article never used", claim.name)
            for over in sorted(claim.over & live):
                if (claim.name, over) not in self._needed:
                    yield _never("displacement never needed", f"{claim.name} over {over}")
        for fact in self._rules.facts:
            for value in fact.values.keys() - self._used.get(fact.name, fact.values.keys()):
                yield _never("value that is never possible", f"{fact.name}: {value}")


def _never(code: str, about: str) -> Finding:
    return Finding(code=code, about=about, situation={})


def _differs(walked: Walked, stage: Stage, name: str, over: str) -> bool:
    without = [
        replace(claim, over=claim.over - {over}) if claim.name == name else claim
        for claim in walked.applying
    ]
    again = settle(stage, without)
    return again.answers != walked.settled.answers
