"""Proposes facts from what somebody says in free words; whoever said it confirms them."""

import math
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from rapidfuzz import fuzz, process

from wholeball.kernel.faults import WholeballError
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import SPACES
from wholeball.training.student_words import IDLE, SAME, SAYINGS, TOGETHER
from wholeball.usecases.stated_facts import space_of, with_what_follows

MOST_TEXT: Final = 300
"""Characters of a text that are read."""
_READINGS: Final = 3
_LIKE: Final = 82
"""Percent of likeness from which two words are one, mistyped."""
_STARTS: Final = 12
_SPOKEN: Final = 1.0
_PRINTED: Final = 0.75
"""How much a saying counts, and how much the engine's own more formal words."""
_HEARD: Final = 0.3
"""How much like a text a cue must be to begin a reading."""
_LEAST: Final = 0.1
"""How good a reading must be to be shown."""
_STRANGE: Final = 2.0
"""What a word weighs that is not known at all; the rarest known one weighs some seven."""
_MOSTLY: Final = 0.8
"""How much of a cue must be there for it to add to another."""
_BARE: Final = frozenset({"yes", "not", "nothing", "neither"})
"""Answers that say nothing without their question."""
_IDLE: Final = frozenset(IDLE.split())


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One way to understand a text: facts with what follows from them, in order of asking."""

    facts: Mapping[str, str]
    space: Space
    score: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cue:
    """Words that stand for facts."""

    words: frozenset[str]
    facts: Mapping[str, str]
    space: Space
    counts: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heard:
    """A cue in a text: which words of the text it covers, and how much of it was there."""

    cue: _Cue
    covers: frozenset[str]
    there: float
    score: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Vocabulary:
    cues: tuple[_Cue, ...]
    weights: Mapping[str, float]


def readings(text: str) -> tuple[Reading, ...]:
    """Return up to three ways to understand a text, the likeliest first."""
    vocabulary = _vocabulary()
    words = _words(text[:MOST_TEXT])
    said = _known(words, vocabulary.weights)
    whole = _weight(said, vocabulary.weights) + _STRANGE * (len(words) - len(said))
    heard = sorted(
        (one for cue in vocabulary.cues if (one := _heard(cue, said, vocabulary)) is not None),
        key=lambda one: (-one.score, sorted(one.cue.facts.items())),
    )
    found = [_reading(start, heard, whole, vocabulary) for start in heard[:_STARTS]]
    apart = {tuple(one.facts.items()): one for one in sorted(found, key=_order, reverse=True)}
    best = sorted(apart.values(), key=_order)
    return tuple(one for one in best[:_READINGS] if one.score >= _LEAST)


def _order(one: Reading) -> tuple[float, int, list[tuple[str, str]]]:
    return -one.score, -len(one.facts), sorted(one.facts.items())


def _reading(
    start: _Heard, heard: Iterable[_Heard], whole: float, vocabulary: _Vocabulary
) -> Reading:
    """Return a cue together with those that add to it, and do not contradict it."""
    facts, covers, space = start.cue.facts, start.covers, start.cue.space
    missing = 1 - start.there
    for other in heard:
        is_more = other.there >= _MOSTLY and other.covers - covers
        if is_more and other.cue.space is space:
            both = _together(facts, other.cue.facts, space)
            if both is not None:
                facts, covers = both, covers | other.covers
                missing += 1 - other.there
    score = _weight(covers, vocabulary.weights) / whole * start.cue.counts - missing / 2
    return Reading(facts=with_what_follows(facts, space), space=space, score=round(score, 4))


def _together(
    some: Mapping[str, str], others: Mapping[str, str], space: Space
) -> Mapping[str, str] | None:
    if any(some.get(name, value) != value for name, value in others.items()):
        return None
    try:
        return with_what_follows({**some, **others}, space)
    except WholeballError:
        return None


def _heard(cue: _Cue, said: frozenset[str], vocabulary: _Vocabulary) -> _Heard | None:
    covers = cue.words & said
    if not covers:
        return None
    there = _weight(covers, vocabulary.weights) / _weight(cue.words, vocabulary.weights)
    covered = _weight(covers, vocabulary.weights) / _weight(said, vocabulary.weights)
    score = cue.counts * 2 * there * covered / (there + covered)
    return _Heard(cue=cue, covers=covers, there=there, score=score) if score > _HEARD else None


def _weight(words: Iterable[str], weights: Mapping[str, float]) -> float:
    return sum(weights[word] for word in words)


def _words(text: str) -> frozenset[str]:
    """Return the telling words of a text, each as the first of those that mean the same."""
    plain = f" {' '.join(re.findall(r'[a-z0-9]+', _joined(text)))} "
    for apart, one in TOGETHER:
        plain = plain.replace(f" {apart} ", f" {one} ")
    same = _same()
    return frozenset(same.get(word, _stem(word)) for word in plain.split() if word not in _IDLE)


def _joined(text: str) -> str:
    return text.lower().replace("'", "").replace("\N{RIGHT SINGLE QUOTATION MARK}", "")


@cache
def _same() -> Mapping[str, str]:
    return {word: line.split()[0] for line in SAME for word in line.split()}


def _stem(word: str) -> str:
    for ending in ("ing", "ed", "es", "s"):
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            return word.removesuffix(ending)
    return word


def _known(words: Iterable[str], weights: Mapping[str, float]) -> frozenset[str]:
    """Return the words that the vocabulary has, mistyped ones as what they are nearest to."""
    return frozenset(filter(None, (_spelt(word, weights) for word in sorted(words))))


def _spelt(word: str, weights: Mapping[str, float]) -> str | None:
    if word in weights:
        return word
    spellings = {**{known: known for known in weights}, **_same()}
    best = process.extractOne(word, spellings.keys(), scorer=fuzz.ratio, score_cutoff=_LIKE)
    found = spellings[best[0]] if best and len(word) > 3 else None
    return found if found in weights else None


@cache
def _vocabulary() -> _Vocabulary:
    cues = tuple(cue for cue in _cues() if cue.words - _BARE)
    seen = Counter(word for cue in cues for word in cue.words)
    weights = {word: 1 + math.log(len(cues) / count) for word, count in seen.items()}
    return _Vocabulary(cues=cues, weights=weights)


def _cues() -> Iterator[_Cue]:
    for said, way in SAYINGS:
        facts = dict(word.split("=") for word in said.split())
        yield _cue(way, facts, space_of(facts), _SPOKEN)
    for space in SPACES:
        for fact in space.facts:
            for value, phrase in fact.values.items():
                yield _cue(phrase, {fact.name: value}, space, _PRINTED)
        names = {fact.name for fact in space.facts}
        for article in space.articles:
            facts = {
                name: value
                for name, value in article.when.items()
                if name in names and " " not in value
            }
            if facts:
                yield _cue(article.says, facts, space, _PRINTED)


def _cue(text: str, facts: Mapping[str, str], space: Space, counts: float) -> _Cue:
    whole = with_what_follows(facts, space)
    return _Cue(words=_words(text), facts=whole, space=space, counts=counts)
