"""Binds the articles to one rulebook: which are live there, what they claim, in which order."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

from wholeball.rulebook.book import Rulebook
from wholeball.rulings.article import Article, Claim
from wholeball.rulings.condition import When, condition
from wholeball.rulings.fact import Fact
from wholeball.rulings.outcome import OUTCOMES, outcome
from wholeball.rulings.reading import is_given, read
from wholeball.rulings.space import Space


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """A space under one rulebook.

    `claims` are the live ones, stage by stage, each before those it displaces, and `settling`
    the same by their stage; `reads` holds, for each, every fact that must be asked to know
    whether it applies, and `readers`, for each fact, the claims that read it so. `place` is where a fact or an answer stands in the order of
    asking, `gates` what calls for a fact, `ways` that and what cuts its values, `behind` all
    names that are read on these ways.
    """

    space: Space
    facts: tuple[Fact, ...]
    claims: tuple[Claim, ...]
    settling: Mapping[str, tuple[Claim, ...]]
    reads: Mapping[str, frozenset[str]]
    readers: Mapping[str, tuple[Claim, ...]]
    place: Mapping[str, int]
    gates: Mapping[str, tuple[When, ...]]
    ways: Mapping[str, tuple[When, ...]]
    behind: Mapping[str, frozenset[str]]


def bind(space: Space, book: Rulebook) -> Rules:
    """Return the rules that a rulebook makes of a space.

    Raises:
        ValueError: an article reads or displaces what there is not, reads what is not known
            when its stage is settled, or displaces in a circle.
    """
    live = [article for article in space.articles if is_given(article.given, book)]
    return rules_of(space, [_claim(article, space, book) for article in live])


def rules_of(space: Space, claims: Iterable[Claim]) -> Rules:
    """Return the rules that exactly these claims make."""
    ordered = _in_order(tuple(claims))
    place = {name: at for at, name in enumerate(_names(space))}
    _refuse_late_reads(ordered, space, place)
    gates = {fact.name: fact.reads for fact in space.facts}
    settling = {
        stage.name: tuple(claim for claim in ordered if claim.stage == stage.name)
        for stage in space.stages
    }
    staged = tuple(claim for stage in space.stages for claim in settling[stage.name])
    reads = {claim.name: _closure(frozenset(claim.when), gates) for claim in ordered}
    return Rules(
        space=space,
        facts=space.facts,
        claims=staged,
        settling=settling,
        reads=reads,
        readers={
            fact.name: tuple(claim for claim in staged if fact.name in reads[claim.name])
            for fact in space.facts
        },
        place=place,
        gates={fact.name: fact.asked_when for fact in space.facts},
        ways={
            fact.name: (*fact.asked_when, *(cut.when for cut in fact.cuts))
            for fact in space.facts
        },
        behind={name: _closure(frozenset({name}), gates) for name in _names(space)},
    )


def _names(space: Space) -> Iterable[str]:
    for stage in space.stages:
        yield from (fact.name for fact in space.facts if fact.stage == stage.name)
        yield from stage.parts


def _refuse_late_reads(claims: Iterable[Claim], space: Space, place: Mapping[str, int]) -> None:
    settled_at = {
        stage.name: min(place[part] for part in stage.parts) for stage in space.stages
    }
    for claim in claims:
        late = sorted(name for name in claim.when if place[name] >= settled_at[claim.stage])
        if late:
            raise ValueError(f"{claim.name} reads {', '.join(late)} after its stage is settled")


def _claim(article: Article, space: Space, book: Rulebook) -> Claim:
    path = book.article(article.path) if article.path else None
    return Claim(
        name=article.name,
        stage=article.stage,
        says=article.says,
        ref=path.ref if path else article.law,
        kind=path.kind if path else "law",
        when=condition(article.when, space.values),
        then=_then(article, space, book),
        over=frozenset(article.over.split()),
        path=article.path,
    )


def _then(article: Article, space: Space, book: Rulebook) -> Mapping[str, str]:
    said: dict[str, str] = {}
    if article.outcome is not None:
        is_word = article.outcome in OUTCOMES
        said.update(outcome(article.outcome if is_word else read(article.outcome, book), book))
    said.update(article.then)
    parts = {stage.name: stage.parts for stage in space.stages}[article.stage]
    for part, value in said.items():
        if value not in parts.get(part, frozenset()):
            raise ValueError(f"{article.name} claims {part} = {value}, which nobody declares")
    return said


def _in_order(claims: tuple[Claim, ...]) -> list[Claim]:
    """Return every claim before those it displaces, the same way in every run."""
    by_name = {claim.name: claim for claim in claims}
    before: dict[str, list[str]] = {claim.name: [] for claim in claims}
    for claim in claims:
        for name in sorted(claim.over & by_name.keys()):
            if by_name[name].stage != claim.stage:
                raise ValueError(f"{claim.name} displaces {name} of another stage")
            before[name].append(claim.name)
    try:
        order = list(TopologicalSorter(before).static_order())
    except CycleError as error:
        raise ValueError(f"articles displace each other: {', '.join(error.args[1])}") from error
    return [by_name[name] for name in order]


def _closure(names: frozenset[str], gates: Mapping[str, frozenset[str]]) -> frozenset[str]:
    found: set[str] = set()
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting.extend(gates.get(name, ()))
    return frozenset(found)
