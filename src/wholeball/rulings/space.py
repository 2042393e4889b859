"""Holds a fact space: facts in the order they are asked, and what each stage answers."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from wholeball.rulings.article import Article
from wholeball.rulings.condition import condition
from wholeball.rulings.fact import Cut, Fact, Said


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A step of a ruling: the parts of the answer it settles, each with its possible values."""

    name: str
    parts: Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """Everything that may be asked and answered, and the articles that answer it."""

    name: str
    stages: tuple[Stage, ...]
    facts: tuple[Fact, ...]
    articles: tuple[Article, ...]

    @property
    def values(self) -> Mapping[str, frozenset[str]]:
        """Every name that a condition may read, with its values."""
        return _values(self.stages, {fact.name: fact.values for fact in self.facts})

    def fact(self, name: str) -> Fact:
        """Return the fact of that name.

        Raises:
            KeyError: there is none.
        """
        return {fact.name: fact for fact in self.facts}[name]


def space(
    name: str, *, stages: tuple[Stage, ...], facts: Iterable[Said], articles: Iterable[Article]
) -> Space:
    """Return a space whose facts stand in order: none reads what is asked or settled later.

    Raises:
        ValueError: a name that is not declared, declared twice, or read before it is asked.
    """
    said = tuple(facts)
    _refuse_twice([one.name for one in said])
    values = _values(stages, {one.name: one.values for one in said})
    declared = tuple(_fact(one, values) for one in said)
    _refuse_early_reads(stages, declared)
    listed = tuple(articles)
    _refuse_twice([one.name for one in listed])
    _refuse_unknown_articles(listed)
    return Space(name=name, stages=stages, facts=declared, articles=listed)


def _values(
    stages: tuple[Stage, ...], facts: Mapping[str, Mapping[str, str]]
) -> Mapping[str, frozenset[str]]:
    answers = {part: values for stage in stages for part, values in stage.parts.items()}
    return MappingProxyType(answers | {name: frozenset(v) for name, v in facts.items()})


def _fact(said: Said, values: Mapping[str, frozenset[str]]) -> Fact:
    return Fact(
        name=said.name,
        stage=said.stage,
        question=said.question,
        values=MappingProxyType(dict(said.values)),
        asked_when=tuple(condition(when, values) for when in said.when),
        cuts=tuple(
            Cut(
                values=condition({said.name: shut}, values)[said.name],
                when=condition(when, values),
                because=because,
            )
            for shut, when, because in said.cuts
        ),
    )


def _refuse_twice(names: list[str]) -> None:
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise ValueError(f"declared twice: {', '.join(twice)}")


def _refuse_early_reads(stages: tuple[Stage, ...], facts: tuple[Fact, ...]) -> None:
    order = [stage.name for stage in stages]
    known: set[str] = set()
    step = 0
    for fact in facts:
        if order.index(fact.stage) < step:
            raise ValueError(f"{fact.name} stands after facts of a later stage")
        for stage in stages[step : order.index(fact.stage)]:
            known.update(stage.parts)
        step = order.index(fact.stage)
        early = sorted(fact.reads - known)
        if early:
            raise ValueError(f"{fact.name} reads {', '.join(early)} before it is asked")
        known.add(fact.name)


def _refuse_unknown_articles(articles: tuple[Article, ...]) -> None:
    known = {article.name for article in articles}
    for article in articles:
        unknown = sorted(set(article.over.split()) - known)
        if unknown:
            raise ValueError(f"{article.name} displaces {', '.join(unknown)}, which is unknown")
