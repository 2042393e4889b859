"""Asks for the facts of a situation, one at a time, until there is a ruling."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final

from wholeball.files.rulebook_file import FILE as RULEBOOK_FILE
from wholeball.files.rulebook_file import read_rulebook, rulebook_of
from wholeball.league.record import LeagueRecord
from wholeball.reports.kicked_in import as_put_in
from wholeball.reports.ruling_words import RulingWords, ruling_words, summary
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulings.asking import best_question
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.cases import Case, cases
from wholeball.rulings.fact import Fact
from wholeball.rulings.proven import proven
from wholeball.rulings.ruling import Lacks, Ruling, Situation, rule_by
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import SPACES
from wholeball.usecases.by_digest import ByDigest
from wholeball.usecases.ruling_elsewhere import (
    Different,
    Reached,
    different,
    reached,
    ruling_of,
)
from wholeball.usecases.stated_facts import with_what_follows

ABOUT: Final[Mapping[str, str]] = {
    "game": "what happened in the game",
    "persons": "who may play, come on or kick, and the tosses",
}
"""What one can ask about, by the space that it is of."""
_BROAD: Final = frozenset({"moment", "seen", "kind", "matter"})
"""Facts that say what it is about: without them there is nothing to rule."""

_MOST_KEPT: Final = 16
"""Spaces of rulebooks that are kept, some megabytes each."""
_MOST_TOLD: Final = 3
"""Rulings that are told at most of an answer that nobody knows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is asked next, and which answers do not contradict what is known."""

    fact: Fact
    values: tuple[str, ...]

    @property
    def may_be_unknown(self) -> bool:
        """Whether there is something to say to one who does not know."""
        return self.fact.name not in _BROAD


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruled:
    """A ruling with its situation, its words, and what is different here.

    `unneeded` are facts that were stated and decide nothing.
    """

    space: Space
    asked: Mapping[str, str]
    unneeded: tuple[str, ...]
    ruling: Ruling
    words: RulingWords
    different: Different | None


@dataclass(frozen=True, kw_only=True)
class Asking:
    """A rulebook that can be asked about situations of one space."""

    book: Rulebook
    space: Space
    rules: Rules
    laws: Rules

    @cached_property
    def cases(self) -> tuple[Case, ...]:
        """Every situation with its answers, listed once: it takes a tenth of a second or so."""
        return cases(self.rules)

    def stated(self, facts: Mapping[str, str]) -> Question | Ruled:
        """Return the ruling of stated facts, or the first that is lacking, in the fixed order.

        Raises:
            WholeballError: facts contradict each other or decide nothing, or the rulebook has
                no one answer.
        """
        here = reached(with_what_follows(facts, self.space), self.rules)
        if isinstance(here.found, Lacks):
            return Question(fact=here.found.fact, values=here.found.values)
        rule_by(Situation(facts={**here.asked, **facts}), self.rules)
        return self._ruled((here,), facts)

    def next(self, facts: Mapping[str, str]) -> Question | Ruled:
        """Return the ruling, or the question that leaves least to ask after it.

        A ruling comes as soon as all that is still open would be ruled alike.

        Raises:
            WholeballError: facts contradict each other, or the rulebook has no one answer.
        """
        known = with_what_follows(facts, self.space)
        here = reached(known, self.rules)
        if isinstance(here.found, Ruling):
            return self._ruled((here,), facts)
        left = self._left(known)
        best = best_question(left)
        if best is None:
            return self._ruled([self._reached(case) for case in left], facts)
        fact, there = self.space.fact(best), {case.facts[best] for case in left}
        return Question(fact=fact, values=tuple(one for one in fact.values if one in there))

    def possible(self, facts: Mapping[str, str]) -> int:
        """Return how many situations have these facts.

        Raises:
            WholeballError: facts contradict each other.
        """
        return len(self._left(with_what_follows(facts, self.space)))

    def depends(
        self, question: Question, facts: Mapping[str, str]
    ) -> dict[str, tuple[str, ...]]:
        """Return, by answer to a question, what it may come to; nothing where that is much."""
        left = self._left(with_what_follows(facts, self.space))
        return {
            value: _few(
                as_put_in(summary(dict(case.answers), case.facts), self.book)
                for case in left
                if case.facts[question.fact.name] == value
            )
            for value in question.values
        }

    def _left(self, known: Mapping[str, str]) -> list[Case]:
        """Return the situations that have all of these facts, save those never asked here."""
        asked = {name for case in self.cases for name in case.facts}
        needed = {name: value for name, value in known.items() if name in asked}
        return [case for case in self.cases if needed.items() <= case.facts.items()]

    def _reached(self, case: Case) -> Reached:
        found = rule_by(Situation(facts=case.facts), self.rules)
        return Reached(found=found, asked=case.facts)

    def _ruled(self, ends: Sequence[Reached], facts: Mapping[str, str]) -> Ruled:
        """Return what situations that are ruled alike share, and what is said of it."""
        shared = set(ends[0].asked.items()).intersection(*(end.asked.items() for end in ends))
        asked = {
            name: value for name, value in ends[0].asked.items() if (name, value) in shared
        }
        rulings = [ruling_of(end) for end in ends]
        articles = tuple(
            claim
            for claim in rulings[0].articles
            if all(claim in ruling.articles for ruling in rulings)
        )
        ruling = Ruling(answers=rulings[0].answers, articles=articles)
        return Ruled(
            space=self.space,
            asked=asked,
            unneeded=tuple(name for name in facts if name not in asked),
            ruling=ruling,
            words=ruling_words(ruling, asked, self.book),
            different=different(ruling, asked, self.book, self.laws),
        )


def _few(told: Iterable[str]) -> tuple[str, ...]:
    found = tuple(dict.fromkeys(told))
    return found if len(found) <= _MOST_TOLD else ()


@lru_cache(maxsize=_MOST_KEPT)
def kept_asking(known: ByDigest, about: str) -> Asking:
    """Return the same as `asking`, compiled once for each rulebook in this process.

    Raises:
        KeyError: there is no space of that name.
        Unproven: the rulebook has not exactly one ruling for every situation.
    """
    return asking(known.book, {space.name: space for space in SPACES}[about])


def asking(book: Rulebook, space: Space) -> Asking:
    """Return what can be asked about a space under a rulebook.

    Raises:
        Unproven: the rulebook has not exactly one ruling for every situation.
    """
    laws = bind(space, edition(book.head.base))
    return Asking(book=book, space=space, rules=proven(bind(space, book)), laws=laws)


def rulebook_to_ask(name: str | None, record: LeagueRecord) -> Rulebook:
    """Return the rulebook of that name, or else that of a folder, or else the newest Laws.

    Raises:
        InputFaults: everything that is wrong with the file.
        WholeballError: there is no such file and no such edition.
    """
    if not name and record.has(RULEBOOK_FILE):
        return rulebook_of(record).rulebook
    return read_rulebook(name or NEWEST).rulebook


def phrases(facts: Mapping[str, str], names: Iterable[str], space: Space) -> tuple[str, ...]:
    """Return some of the facts as a question and its answer each."""
    found = ((space.fact(name), facts[name]) for name in names)
    return tuple(f"{fact.question} {_capital(fact.values[value])}." for fact, value in found)


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
