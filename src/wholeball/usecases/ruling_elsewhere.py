"""Rules one situation under another rulebook, and all the ways in which it may go on."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from typing import Final

from wholeball.kernel.faults import WholeballError
from wholeball.reports.article import Differs, differs
from wholeball.reports.ruling_words import summary
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.differences import compared
from wholeball.rulings.bind import Rules
from wholeball.rulings.ruling import Lacks, Ruling, Situation, rule_by

_MOST_ENDS: Final = 60
"""Ways to go on that are walked through at most, some ten milliseconds each."""
_FIRST: Final = "play"
"""The stage whose articles rule; what the later ones say matters only where it differs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """Where facts lead: a ruling or the fact that is lacking, and which of them were asked."""

    found: Ruling | Lacks
    asked: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Different:
    """What is different here: what the Laws would rule, and the articles that differ.

    `laws` is empty where the ruling is the same and only an article behind it differs.
    """

    laws: tuple[str, ...]
    articles: tuple[Differs, ...]


def reached(facts: Mapping[str, str], rules: Rules) -> Reached:
    """Rule a situation; facts that are not asked are left aside.

    Raises:
        WholeballError: a fact contradicts another, or the rulebook has no one answer.
    """
    asked: dict[str, str] = {}
    while True:
        found = rule_by(Situation(facts=asked), rules)
        if isinstance(found, Ruling) or found.fact.name not in facts:
            return Reached(found=found, asked=asked)
        asked[found.fact.name] = facts[found.fact.name]


def ends(facts: Mapping[str, str], rules: Rules) -> Iterator[Reached]:
    """Yield every ruling that a situation may still come to."""
    try:
        here = reached(facts, rules)
    except WholeballError as refused:
        if refused.code != "contradiction":
            raise
        return
    if isinstance(here.found, Ruling):
        yield here
        return
    for value in here.found.values:
        yield from ends({**facts, here.found.fact.name: value}, rules)


def different(
    ruling: Ruling, facts: Mapping[str, str], book: Rulebook, laws: Rules
) -> Different | None:
    """Return what is different under a rulebook from the Laws it stands on, if anything is."""
    others = list(islice(ends(facts, laws), _MOST_ENDS))
    unlike = [end for end in others if ruling_of(end).answers != ruling.answers]
    told = dict.fromkeys(summary(ruling_of(end).answers, end.asked) for end in unlike)
    rulings = [ruling, *map(ruling_of, others)]
    parts = {
        part
        for other in rulings
        for part, value in other.answers.items()
        if value != ruling.answers[part]
    }
    deciding = {
        claim.path
        for other in rulings
        for claim in other.articles
        if claim.stage == _FIRST or parts & claim.then.keys()
    }
    articles = tuple(one for one in differs(book, compared(book)) if one.told.path in deciding)
    if not told and not articles:
        return None
    return Different(laws=tuple(told), articles=articles)


def ruling_of(end: Reached) -> Ruling:
    """Return the ruling that facts led to.

    Raises:
        TypeError: they led to none.
    """
    if isinstance(end.found, Lacks):
        raise TypeError(f"{end.found.fact.name} is lacking")
    return end.found
