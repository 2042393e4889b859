"""Shows a situation while it is told: what was said, its sketch, and the question or the ruling."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from wholeball.reports.field_of_play import field_plan
from wholeball.reports.kicked_in import as_put_in
from wholeball.reports.ruling_words import ArticleWords
from wholeball.reports.rulings_page import kinds_of
from wholeball.reports.safety import LOCAL_FIRST
from wholeball.reports.scene_svg import scene_svg
from wholeball.reports.scene_words import who_is_who
from wholeball.rulebook.book import Rulebook
from wholeball.rulings.article import Kind
from wholeball.rulings.ruling import Ruling, Situation
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import GAME
from wholeball.training.compose import scene_of, sketch_of
from wholeball.usecases.ask_ruling import Question, Ruled, kept_asking
from wholeball.usecases.by_digest import by_digest
from wholeball.usecases.propose_facts import Reading, readings
from wholeball.usecases.show_rulings import largest_ball
from wholeball.usecases.stated_facts import with_what_follows

_DRAWN: Final = "seen"
"""The fact without which there is nothing to draw."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A question and its answer in words; `fact` and `value` are their names."""

    fact: str
    value: str
    asks: str
    answer: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A scene as SVG, and which shape is which side."""

    svg: str
    sides: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The next question with its answers, and how many situations are still possible.

    `depends` says what each answer may come to, where that was wanted: it is for somebody who
    cannot answer.
    """

    fact: str
    asks: str
    answers: tuple[Said, ...]
    may_be_unknown: bool
    depends: tuple[tuple[str, tuple[str, ...]], ...]
    possible: int

    @property
    def count(self) -> str:
        """How many are possible, as people read it."""
        return f"{self.possible:,}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A situation so far: what was said in its order, what follows from it, and what comes next.

    Either `asked` or `ruled` is there. `articles` are those of the ruling, each with its kind
    and the word for it.
    """

    said: tuple[Said, ...]
    follows: tuple[Said, ...]
    picture: Picture | None
    asked: Asked | None
    ruled: Ruled | None
    articles: tuple[tuple[ArticleWords, tuple[Kind, str]], ...]
    local_first: str = LOCAL_FIRST


def study_situation(
    book: Rulebook, about: str, facts: Mapping[str, str], *, wants_depends: bool = False
) -> Told:
    """Return what follows from facts of a space, in the order in which they were said.

    Raises:
        KeyError: there is no such space.
        WholeballError: facts contradict each other, or the rulebook has no one answer.
    """
    asks = kept_asking(by_digest(book), about)
    found, lines = asks.next(facts), _Lines(space=asks.space, book=book)
    said = tuple(lines.said(facts, facts))
    if isinstance(found, Ruled):
        return Told(
            said=said,
            follows=_others(found.asked, facts, lines),
            picture=_picture(found.asked, found.ruling, lines),
            asked=None,
            ruled=found,
            articles=tuple(
                zip(
                    found.words.articles,
                    kinds_of(found.words, found.ruling, book),
                    strict=True,
                )
            ),
        )
    known = with_what_follows(facts, asks.space)
    depends = asks.depends(found, facts) if wants_depends else {}
    return Told(
        said=said,
        follows=_others(known, facts, lines),
        picture=_picture(known, None, lines),
        asked=_asked(found, depends, lines, possible=asks.possible(facts)),
        ruled=None,
        articles=(),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """One way to understand a text."""

    about: str
    said: tuple[Said, ...]


def hear(text: str, book: Rulebook) -> tuple[Heard, ...]:
    """Return up to three ways to understand a text, none of which is taken yet."""
    return tuple(_heard(one, book) for one in readings(text))


def _heard(one: Reading, book: Rulebook) -> Heard:
    lines = _Lines(space=one.space, book=book)
    return Heard(about=one.space.name, said=tuple(lines.said(one.facts, one.facts)))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lines:
    """Says facts of a space in the words of a rulebook."""

    space: Space
    book: Rulebook

    def said(self, facts: Mapping[str, str], names: Iterable[str]) -> Iterator[Said]:
        """Yield some of the facts, in the order of their names."""
        for name in names:
            fact = self.space.fact(name)
            yield Said(
                fact=name,
                value=facts[name],
                asks=as_put_in(fact.question, self.book),
                answer=self.capital(fact.values[facts[name]]),
            )

    def capital(self, text: str) -> str:
        """Return a phrase as it begins a sentence."""
        said = as_put_in(text, self.book)
        return said[0].upper() + said[1:]


def _others(
    known: Mapping[str, str], facts: Mapping[str, str], lines: _Lines
) -> tuple[Said, ...]:
    """Return what is known and was not said."""
    return tuple(lines.said(known, (name for name in known if name not in facts)))


def _asked(
    question: Question, depends: Mapping[str, tuple[str, ...]], lines: _Lines, *, possible: int
) -> Asked:
    fact = question.fact
    answers = (next(lines.said({fact.name: value}, (fact.name,))) for value in question.values)
    return Asked(
        fact=fact.name,
        asks=as_put_in(fact.question, lines.book),
        answers=tuple(answers),
        may_be_unknown=question.may_be_unknown,
        depends=tuple(
            (lines.capital(fact.values[value]), told) for value, told in depends.items()
        ),
        possible=possible,
    )


def _picture(facts: Mapping[str, str], ruling: Ruling | None, lines: _Lines) -> Picture | None:
    """Return the scene, or before there is a ruling the sketch, once there is one to draw."""
    if lines.space is not GAME or _DRAWN not in facts:
        return None
    book, situation = lines.book, Situation(facts=facts)
    plan, ball = field_plan(book), largest_ball(book)
    scene = (
        sketch_of(situation, plan, ball=ball)
        if ruling is None
        else scene_of(situation, ruling, plan, ball=ball)
    )
    svg = scene_svg(scene, situation, ruling, book.field.unit)
    return Picture(svg=as_put_in(svg, book), sides=who_is_who(scene, situation))
