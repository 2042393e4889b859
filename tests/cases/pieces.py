"""Takes the articles apart: what becomes of every situation if one piece of one article is gone.

It asks all that may be asked, whether an article waits for it or not, so that no piece decides
what is asked: a situation here stands for all those in which the engine asks less.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import IntEnum
from typing import TypeAlias

from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules
from wholeball.rulings.condition import NOT
from wholeball.rulings.fact import Fact
from wholeball.rulings.paths import read_later
from wholeball.rulings.settle import Settled, settle
from wholeball.rulings.space import Stage

_State: TypeAlias = frozenset[tuple[str, str]]
_Said: TypeAlias = Mapping[str, Mapping[str, str]]
"""The conditions of articles as they are written."""
_Part: TypeAlias = tuple[str, str]
"""An article, and a name in its condition."""
_Near: TypeAlias = Sequence[tuple[Claim, str | None]]
"""Claims that apply, and those that one name keeps from applying, with this name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """A situation at the end of a stage: what is known, and the claims that all but apply."""

    known: Mapping[str, str]
    near: _Near

    @property
    def applying(self) -> list[Claim]:
        """The claims that apply."""
        return [claim for claim, lacks in self.near if lacks is None]


class Effect(IntEnum):
    """The most that taking a piece away does in any situation of any rulebook."""

    NOTHING = 0
    """The article applies wherever it did and nowhere else."""
    HIDDEN = 1
    """It applies elsewhere, and others displace it there."""
    CITED = 2
    """Other articles stand, and they answer alike."""
    RULED = 3
    """An answer changes, is missing or is double."""


@dataclass(slots=True)
class Pieces:
    """The pieces of all rulebooks that were taken apart so far, with their effects.

    A piece is "article", "article over another", "article: name" for a part of its condition, or
    "article: name value" for a value that is written in it.
    """

    effects: dict[str, Effect] = field(default_factory=dict)
    _seen: set[object] = field(default_factory=set)

    def take_apart(self, rules: Rules) -> None:
        """Take every piece away in every situation, unless the same claims were met before."""
        same = (rules.space.name, tuple((one.name, *one.then.items()) for one in rules.claims))
        if same in self._seen:
            return
        self._seen.add(same)
        for piece in written(rules):
            self.effects.setdefault(piece, Effect.NOTHING)
        said = _said(rules)
        for stage, met in situations(rules, self._done(said)):
            self._judge(stage, met, said)

    def unnoticed(self, most: Effect) -> set[str]:
        """Return the pieces with exactly this effect at most."""
        return {piece for piece, effect in self.effects.items() if effect == most}

    def _done(self, said: _Said) -> frozenset[_Part]:
        """Return the parts of conditions that are noticed already."""
        return frozenset(
            (article, name)
            for article, words in said.items()
            for name, value in words.items()
            if self.effects.get(f"{article}: {name}") is Effect.RULED and not _is_denied(value)
        )

    def _judge(self, stage: Stage, met: Met, said: _Said) -> None:
        near, known = met.near, met.known
        applying = met.applying
        plain = settle(stage, applying)
        for claim, lacks in near:
            words = said[claim.name]
            if lacks is None:
                rest = [one for one in applying if one is not claim]
                self._note(_with_values(claim, known, words), stage, plain, rest)
                for over in claim.over & {one.name for one in applying}:
                    less = replace(claim, over=claim.over - {over})
                    without = [less if one is claim else one for one in applying]
                    self._note((f"{claim.name} over {over}",), stage, plain, without)
            else:
                more = [one for one, lost in near if lost is None or one is claim]
                self._note(_with_denied(claim, lacks, known, words), stage, plain, more)

    def _note(
        self, pieces: tuple[str, ...], stage: Stage, plain: Settled, changed: list[Claim]
    ) -> None:
        if all(self.effects[piece] is Effect.RULED for piece in pieces):
            return
        effect = _effect(plain, settle(stage, changed))
        for piece in pieces:
            self.effects[piece] = max(self.effects[piece], effect)


def written(rules: Rules) -> Iterator[str]:
    """Yield every piece of the live articles."""
    live = {claim.name for claim in rules.claims}
    said = _said(rules)
    for claim in rules.claims:
        yield claim.name
        yield from (f"{claim.name} over {over}" for over in claim.over & live)
        for name, words in said[claim.name].items():
            yield f"{claim.name}: {name}"
            yield from (
                f"{claim.name}: {name} {value}" for value in words.split() if value != NOT
            )


def situations(rules: Rules, done: frozenset[_Part]) -> Iterator[tuple[Stage, Met]]:
    """Yield all that may be met when a stage is settled, once for what later stages read.

    Claims that lack only a part that is done are left out.
    """
    states: set[_State] = {frozenset()}
    for stage in rules.space.stages:
        kept = read_later(rules, stage)
        after: set[_State] = set()
        for state in states:
            for met in asked_in_full(rules, stage, dict(state), done):
                yield stage, met
                ruled = {**met.known, **settle(stage, met.applying).answers}
                after.add(frozenset(pair for pair in ruled.items() if pair[0] in kept))
        states = after


def asked_in_full(
    rules: Rules, stage: Stage, known: Mapping[str, str], done: frozenset[_Part] = frozenset()
) -> Iterator[Met]:
    """Yield what may be met at the end of a stage if all is asked that is called for."""
    facts = tuple(fact for fact in rules.facts if fact.stage == stage.name)
    claims = [claim for claim in rules.claims if claim.stage == stage.name]
    near: _Near = [(claim, None) for claim in claims]
    earlier = {name for claim in claims for name in claim.when} - {fact.name for fact in facts}
    for name in sorted(earlier):
        near = _narrowed(near, name, known.get(name), done)
    return _asked(facts, Met(known=known, near=near), done)


def _asked(facts: tuple[Fact, ...], met: Met, done: frozenset[_Part]) -> Iterator[Met]:
    if not facts:
        yield met
        return
    fact, later = facts[0], facts[1:]
    if not fact.may_be_asked(met.known):
        near = _narrowed(met.near, fact.name, None, done)
        yield from _asked(later, Met(known=met.known, near=near), done)
        return
    for value in fact.open_values(met.known):
        known = {**met.known, fact.name: value}
        near = _narrowed(met.near, fact.name, value, done)
        yield from _asked(later, Met(known=known, near=near), done)


def _narrowed(near: _Near, name: str, value: str | None, done: frozenset[_Part]) -> _Near:
    """Return the claims that a value leaves applying, or makes the only name they lack."""
    left: list[tuple[Claim, str | None]] = []
    for claim, lacks in near:
        wanted = claim.when.get(name)
        if wanted is None or value in wanted:
            left.append((claim, lacks))
        elif lacks is None and (claim.name, name) not in done:
            left.append((claim, name))
    return left


def _with_values(
    claim: Claim, known: Mapping[str, str], words: Mapping[str, str]
) -> tuple[str, ...]:
    """Return the article as a piece, and each written value by which it applies."""
    used = (name for name, said in words.items() if not _is_denied(said))
    return (claim.name, *(f"{claim.name}: {name} {known[name]}" for name in used))


def _with_denied(
    claim: Claim, name: str, known: Mapping[str, str], words: Mapping[str, str]
) -> tuple[str, ...]:
    """Return what keeps an article from applying as a piece, and the value if it is denied."""
    piece = f"{claim.name}: {name}"
    is_denied = _is_denied(words[name]) and known.get(name) in words[name].split()
    return (piece, f"{piece} {known[name]}") if is_denied else (piece,)


def _said(rules: Rules) -> _Said:
    return {article.name: article.when for article in rules.space.articles}


def _is_denied(words: str) -> bool:
    return words.split(maxsplit=1)[0] == NOT


def _effect(plain: Settled, changed: Settled) -> Effect:
    if (plain.answers, plain.gaps, plain.conflicts) != (
        changed.answers,
        changed.gaps,
        changed.conflicts,
    ):
        return Effect.RULED
    return Effect.HIDDEN if _names(plain.articles) == _names(changed.articles) else Effect.CITED


def _names(claims: Iterable[Claim]) -> list[str]:
    return [claim.name for claim in claims]
