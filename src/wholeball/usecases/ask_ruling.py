"""Asks for the facts of a situation, one at a time, until there is a ruling."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from wholeball.files.bounded import is_there
from wholeball.files.rulebook_file import read_rulebook
from wholeball.kernel.faults import WholeballError
from wholeball.reports.ruling_words import RulingWords, ruling_words
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.fact import Fact
from wholeball.rulings.ruling import Ruling, Situation, rule_by
from wholeball.rulings.space import Space
from wholeball.usecases.ruling_elsewhere import (
    Different,
    Reached,
    different,
    reached,
    summaries,
)
from wholeball.usecases.stated_facts import with_what_follows

HERE: Final = "rulebook.toml"
_BROAD: Final = frozenset({"moment", "seen", "kind", "matter"})
"""Facts that say what it is about: without them there is nothing to rule."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """A rulebook that can be asked about situations of one space."""

    book: Rulebook
    space: Space
    rules: Rules
    laws: Rules = field(repr=False)

    def next(self, facts: Mapping[str, str]) -> Question | Ruled:
        """Return the ruling, or the question that comes next, with two answers or more.

        Raises:
            WholeballError: facts contradict each other, or the rulebook has no one answer.
        """
        known = with_what_follows(facts, self.space)
        while True:
            here = reached(known, self.rules)
            if isinstance(here.found, Ruling):
                return self._ruled(here, here.found, facts)
            fact = here.found.fact
            values = tuple(
                value for value in here.found.values if self._may_be(fact.name, value, known)
            )
            if len(values) != 1:
                return Question(fact=fact, values=values)
            (known[fact.name],) = values

    def strictly(self, facts: Mapping[str, str]) -> Question | Ruled:
        """Return the same, and refuse facts that a ruling has no use for.

        Raises:
            WholeballError: also where a fact decides nothing.
        """
        found = self.next(facts)
        if isinstance(found, Ruled) and found.unneeded:
            rule_by(Situation(facts={**found.asked, **facts}), self.rules)
        return found

    def depends(
        self, question: Question, facts: Mapping[str, str]
    ) -> dict[str, tuple[str, ...]]:
        """Return, by answer to a question, what it may come to; nothing where that is much."""
        known = with_what_follows(facts, self.space)
        return {
            value: summaries({**known, question.fact.name: value}, self.rules)
            for value in question.values
        }

    def _ruled(self, here: Reached, ruling: Ruling, facts: Mapping[str, str]) -> Ruled:
        return Ruled(
            space=self.space,
            asked=here.asked,
            unneeded=tuple(name for name in facts if name not in here.asked),
            ruling=ruling,
            words=ruling_words(ruling, here.asked),
            different=different(here, self.book, self.laws),
        )

    def _may_be(self, name: str, value: str, known: Mapping[str, str]) -> bool:
        try:
            with_what_follows({**known, name: value}, self.space)
        except WholeballError:
            return False
        return True


def asking(book: Rulebook, space: Space) -> Asking:
    """Return what can be asked about a space under a rulebook."""
    laws = bind(space, edition(book.head.base))
    return Asking(book=book, space=space, rules=bind(space, book), laws=laws)


def rulebook_to_ask(name: str | None, folder: Path) -> Rulebook:
    """Return the rulebook of that name, or else that of a folder, or else the newest Laws.

    Raises:
        InputFaults: everything that is wrong with the file.
        WholeballError: there is no such file and no such edition.
    """
    here = folder / HERE
    return read_rulebook(name or (str(here) if is_there(here) else NEWEST)).rulebook


def phrases(facts: Mapping[str, str], names: Iterable[str], space: Space) -> tuple[str, ...]:
    """Return some of the facts as a question and its answer each."""
    found = ((space.fact(name), facts[name]) for name in names)
    return tuple(f"{fact.question} {_capital(fact.values[value])}." for fact, value in found)


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
